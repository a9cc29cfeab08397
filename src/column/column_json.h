#pragma once

#include "column/column_result.h"
#include "document/json.h"

namespace cospot {

/// The plan as objects: one a compound, in the order in which they leave, then one for
/// the column. What is not known is null.
///
/// A compound: record "compound"; compound; role ("target", "impurity" or empty); rf; basis,
/// rf_low, rf_high (of the library's expectation); k and column_volumes (of the plate: 1/R_F - 1,
/// 1/R_F); volume_mL and sigma_mL (maximum of the expected band, standard deviation of its front);
/// band_cv and band_sigma_cv (the same in column volumes, without volume outside the bed where the
/// column's is not known); first_fraction, last_fraction (of the expected band; 0: in the volume
/// discarded before fraction 1, which is forerun_mL); start_mL, end_mL, middle_mL (of the expected
/// band); middle_low_mL to middle_high_mL (holds its middle in 95 of 100 runs), whole_low_mL to
/// whole_high_mL (all of it); middle_factor (to both sides); first_fraction_95, last_fraction_95
/// (of what holds all of it); volume_basis ("measured", "calibrated", "assumed"); amount_mg.
///
/// The last object: record "column"; target; difference (of R_F, that the table was asked for);
/// load_mg; diameter_mm; bed_mm; silica_g; column_volume_mL (given, or of the bed); outside_mL,
/// hold_up_mL (of both) and hold_ratio (of k on column and plate) that the plan uses;
/// interval_percent; own_column (name, runs, bands, held_out: bands, middle_within, whole_within);
/// one_run (factor_now, factor_other_compound, factor_same_compound, text: what one run would
/// teach); interval_notes (what the intervals hold, in sentences); band_model (quantity, unit,
/// value, low, high, origin, reason); plate_number; eluent_mL (of a column whose size is given);
/// fraction_mL; load_mL; forerun_mL; advice by the
/// table: diameter_mm, eluent_mL, load_mg, fraction_mL, place ("within table", "below table",
/// "beyond table"), portions, source; neighbours: first, second, rf_difference, column_volumes,
/// resolution; eluent: mobile_phase, change ("keep", "stronger", "weaker"), text, strong_solvent,
/// doubts (why it is not known), wanted_low, wanted_high, mixtures (mobile_phase,
/// strong_fraction, rf, low, high, basis), between (mobile_phase, strong_fraction, rf, and the
/// mixtures lower and upper that it lies between); warnings: kind, compounds, text;
/// needs_attention; notes; cautions.
[[nodiscard]] Json column_json(const ColumnResult &result);

} // namespace cospot
