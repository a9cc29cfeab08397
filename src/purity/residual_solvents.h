#pragma once

#include "purity/judged_sample.h"

#include <optional>
#include <string>
#include <vector>

namespace cospot::purity {

/// A solvent that is looked for, by name and InChIKey.
struct SoughtSolvent {
    std::string name;
    std::string inchikey;
};

/// What residual solvents are judged with.
struct SolventQuestion {
    std::vector<SoughtSolvent> sought;   ///< those that the user expects
    std::optional<double> dose_mg;       ///< of the substance a day
    std::optional<double> detection_ppm; ///< a solvent below it would not be seen
};

/// Whole ppm; two digits below 10.
[[nodiscard]] std::string ppm_text(double ppm);

/// A verdict on each solvent of which peaks were seen, structures that one limit holds for added up
/// (the xylenes), on each expected one without a peak, on each peak that is no solvent of the
/// guideline, and on the declared compound's, which must not be a solvent's. The features' ppm must
/// be set. A name that rests on retention alone leaves a limit that is met open.
[[nodiscard]] std::vector<RuleVerdict> solvent_verdicts(JudgedSample &sample,
                                                        const SolventQuestion &question);

} // namespace cospot::purity
