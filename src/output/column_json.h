#pragma once

#include "output/column_result.h"

#include <string>
#include <vector>

namespace cospot {

/// The plan as lines of JSON: one object a compound, in the order in which they leave, then one for
/// the column. What is not known is null.
///
/// A compound: record "compound"; compound; role ("target", "impurity" or empty); rf; basis,
/// rf_low, rf_high (of the library's expectation); k; column_volumes; volume_mL and sigma_mL (of
/// the Gaussian band); first_fraction, last_fraction (0: in the forerun); amount_mg.
///
/// The last object: record "column"; target; difference (of R_F, that the table was asked for);
/// load_mg; diameter_mm; bed_mm; silica_g; column_volume_mL; plate_number; fraction_mL; load_mL;
/// forerun_mL; advice by the table: diameter_mm, eluent_mL, load_mg, fraction_mL, place ("within
/// table", "below table", "beyond table"), portions; neighbours: first, second, rf_difference,
/// column_volumes, resolution; eluent: mobile_phase, change ("keep", "stronger", "weaker"),
/// strong_solvent, wanted_low, wanted_high, mixtures (mobile_phase, strong_fraction, rf, low, high,
/// basis), between (mobile_phase, strong_fraction, rf); warnings: kind, compounds, text;
/// needs_attention; notes; cautions.
[[nodiscard]] std::vector<std::string> column_json(const ColumnResult &result);

} // namespace cospot
