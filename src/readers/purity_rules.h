#pragma once

#include "purity/rules.h"

#include <string>
#include <string_view>

namespace cospot {

/// Reads rules for `purity` from JSON:
///
///     {"name": "...", "source": "...",
///      "reporting":      [{"dose_up_to": "2 g", "percent": "0.05"}, {"percent": "0.03"}],
///      "identification": [{"dose_below": "1 mg", "percent": "1.0", "intake": "5 ug"}, ...],
///      "qualification":  [...],
///      "specified": [{"compound": "...", "percent": "0.15"}],
///      "any_other": "0.10", "total": "0.5", "declared_at_least": "98.0",
///      "suitability": {"resolution_at_least": 1.5, "symmetry_from": 0.8, "symmetry_to": 1.8,
///                      "plate_number_at_least": 2000}}
///
/// All but the name may be left out. Limits are texts, since their decimals say how results are
/// rounded; doses and intakes have a unit, "ug", "mg" or "g". The bands of a threshold ascend, and
/// the last has no upper dose. Throws InputError, with the line where JSON is malformed and with
/// the place such as "identification[1].percent" elsewhere, for anything else: unknown or missing
/// fields, bands with a gap or out of order, per cents above 100.
[[nodiscard]] purity::Rules read_purity_rules(std::string_view json, const std::string &file);

/// The rules that guidelines state for impurities of new substances, "substance", and for
/// degradation products in new products, "product"; with usual limits for suitability.
[[nodiscard]] purity::Rules guideline_rules(std::string_view kind);

} // namespace cospot
