#pragma once

#include "matcher/likelihood.h"
#include "matcher/ranking.h"

#include <span>
#include <vector>

namespace cospot::matcher {

/// With fewer features on a system its shift in this run stays unknown.
inline constexpr std::size_t kFewestForShift = 3;

inline constexpr std::size_t kMostForShift = 300;

/// No estimate is farther from 0, nor has a larger standard deviation; in standard deviations of
/// how runs vary.
inline constexpr double kMostShift = 4.0;

/// The shift of a run on each system from the features themselves, whatever they are: Bayes' rule
/// on a grid, each feature being any of the candidates or unlisted; the prior is how runs of the
/// library vary. `features` holds the observations of each feature; of more than `kMostForShift` on
/// a system an even choice counts, which tells the shift as well.
[[nodiscard]] std::vector<RunShift>
estimate_shifts(std::span<const std::vector<Observation>> features, const Knowledge &knowledge,
                std::span<const NearbyCandidates> nearby, const Prior &prior);

/// A part of the model scale.
struct Stretch {
    double low;
    double high;
};

/// Where the candidates lie that may have shown an observation, whatever shift of its run will be
/// estimated. Those that are near only since nothing is nearer (`kClosest`) may lie farther.
/// `reach` is that of all candidates; the observation must not be censored.
[[nodiscard]] Stretch stretch_in_reach(const SystemModel &system, const Reach &reach,
                                       const Observation &observation);

} // namespace cospot::matcher
