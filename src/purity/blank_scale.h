#pragma once

#include "readers/feature.h"

#include <functional>
#include <span>
#include <string>

namespace cospot::purity {

/// How the times of a blank are laid over those of the sample's run.
struct BlankScale {
    std::function<double(double)> on_sample; ///< from a time of the blank in min to one of the run
    std::string note;                        ///< by what, in words
};

/// Lays a blank over a run by what both tell about their scales, the best first: a ladder of each
/// (equal index), a peak of the same compound in each (equal relative retention, adjusted where
/// both have a hold-up time), a hold-up time of each (equal retention factor), the ratio that the
/// times of three or more common peaks agree on. Where nothing of this tells, times stay as they
/// are, and the note says so. Outside a ladder times are scaled as those of its end are. Times in
/// min.
[[nodiscard]] BlankScale blank_scale(const RunScale &sample, const RunScale &blank,
                                     std::span<const double> sample_min,
                                     std::span<const double> blank_min);

} // namespace cospot::purity
