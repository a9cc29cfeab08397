#pragma once

#include "purity/judged_sample.h"
#include "purity/solvent_limits.h"

#include <optional>
#include <string>
#include <vector>

namespace cospot::purity {

/// A solvent of the guideline that a peak may be.
struct LikelySolvent {
    std::string name;
    double probability = 0.0;
    const SolventLimit *limit = nullptr; ///< never null
};

/// The solvents that a peak is all but surely one of: its likeliest candidates, which together hold
/// 95 % of all that the library can propose, and 80 % of all, so that a compound that the library
/// lacks has less than 20 %. Empty where less is known, where one of them has no limit, and where a
/// name of the table or a confirmation already says what the peak is.
[[nodiscard]] std::vector<LikelySolvent> likely_solvents(const JudgedFeature &feature);

/// "acetone (0.77, limit 5000 ppm) or 2-propanol (0.16, limit 5000 ppm)", and what is left for a
/// compound that the library lacks.
[[nodiscard]] std::string words_for(const std::vector<LikelySolvent> &solvents,
                                    const JudgedFeature &feature,
                                    std::optional<double> dose_mg_day);

} // namespace cospot::purity
