#pragma once

#include "quantities/rounding.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot::purity {

/// What a guideline allows of a residual solvent, as src/purity/data/residual_solvents.tsv has it,
/// with the sources.
struct SolventLimit {
    std::string name;
    std::string cas;                    ///< registry number
    int solvent_class = 0;              ///< 1: to be avoided; 2: limited; 3: of low toxic potential
    std::optional<double> pde_mg_day;   ///< permitted daily exposure; none of class 1
    double limit_ppm = 0.0;             ///< mg/kg, at daily doses of the substance up to 10 g
    std::vector<std::string> inchikeys; ///< of all structures that the limit holds for together
};

/// The guideline and where its limits are from.
inline constexpr const char *kSolventRules = "residual solvents, ICH Q3C(R8), tables 1 to 3";

/// All solvents of the guideline, in its order.
[[nodiscard]] const std::vector<SolventLimit> &solvent_limits();

/// The limit that holds for a structure, or null: the guideline has none.
[[nodiscard]] const SolventLimit *solvent_limit(std::string_view inchikey);

/// The limit of the solvent that the guideline calls so, the case of letters ignored, or null: for
/// names whose structure the library does not hold.
[[nodiscard]] const SolventLimit *solvent_limit_called(std::string_view name);

/// The limit in ppm at a daily dose of the substance: as the guideline prints it up to 10 g, for
/// which it was calculated (limit in ppm = 1000 x permitted exposure in mg / dose in g, ICH Q3C,
/// option 1), and lower in proportion above.
[[nodiscard]] Decimal limit_at(const SolventLimit &limit, std::optional<double> dose_mg_day);

} // namespace cospot::purity
