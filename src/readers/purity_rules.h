#pragma once

#include "quantities/rounding.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot::purity {

/// A mass a day as it is written, e.g. 200 ug: it is compared in that unit.
struct Intake {
    Decimal amount;
    std::string unit; ///< "ug", "mg" or "g"
    double mg_per_unit = 1.0;
};

/// A threshold for daily doses up to a limit; the lower of `percent` and `intake` counts.
struct DoseBand {
    std::optional<double> up_to_mg; ///< of the declared compound a day; none: any dose
    bool inclusive = true;          ///< the dose `up_to_mg` itself belongs to the band
    Decimal percent;
    std::optional<Intake> intake;
};

/// One threshold over all doses: bands in ascending order, the last without an upper end.
using DoseBands = std::vector<DoseBand>;

/// Most per cent of a named impurity.
struct SpecifiedLimit {
    std::string compound;
    Decimal percent;
};

/// What the separation itself has to show.
struct Suitability {
    std::optional<double> resolution_at_least; ///< of the declared compound's peak from the nearest
    std::optional<double> symmetry_from;
    std::optional<double> symmetry_to;
    std::optional<double> plate_number_at_least;
};

/// What a sample is judged by. Whatever is empty is not judged.
struct Rules {
    std::string name;
    std::string source;
    DoseBands reporting;      ///< above: counts as an impurity
    DoseBands identification; ///< above: its structure has to be known
    DoseBands qualification;  ///< above: its safety has to be known
    std::vector<SpecifiedLimit> specified;
    std::optional<Decimal> any_other; ///< of an impurity that is not specified
    std::optional<Decimal> total;
    std::optional<Decimal> declared_at_least;
    Suitability suitability;
};

} // namespace cospot::purity

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
