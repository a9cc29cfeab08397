#pragma once

#include "output/column_result.h"
#include "output/json.h"

namespace cospot {

/// The plan as objects: one a compound, in the order in which they leave, then one for
/// the column. What is not known is null.
///
/// A compound: record "compound"; compound; role ("target", "impurity" or empty); rf; basis,
/// rf_low, rf_high (of the library's expectation); k; column_volumes; volume_mL and sigma_mL (of
/// the Gaussian band); band_cv and band_sigma_cv (the same in column volumes, of a load without
/// volume where the column's is not known); first_fraction, last_fraction (0: in the forerun);
/// amount_mg.
///
/// The last object: record "column"; target; difference (of R_F, that the table was asked for);
/// load_mg; diameter_mm; bed_mm; silica_g; column_volume_mL; plate_number; fraction_mL; load_mL;
/// forerun_mL; advice by the table: diameter_mm, eluent_mL, load_mg, fraction_mL, place ("within
/// table", "below table", "beyond table"), portions, source; neighbours: first, second,
/// rf_difference, column_volumes, resolution; eluent: mobile_phase, change ("keep", "stronger",
/// "weaker"), text, strong_solvent, wanted_low, wanted_high, mixtures (mobile_phase,
/// strong_fraction, rf, low, high, basis), between (mobile_phase, strong_fraction, rf, and the
/// mixtures lower and upper that it lies between); warnings: kind, compounds, text;
/// needs_attention; notes; cautions.
[[nodiscard]] Json column_json(const ColumnResult &result);

} // namespace cospot
