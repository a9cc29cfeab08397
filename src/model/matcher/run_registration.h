#pragma once

#include "model/matcher/likelihood.h"
#include "model/matcher/listed_density.h"
#include "model/matcher/sample.h"

#include <optional>
#include <span>
#include <vector>

namespace cospot::matcher {

/// How a run lies against the library on one system, as its features and standards show it.
struct RegisteredSystem {
    std::size_t system = 0;
    std::size_t readings = 0; ///< of features and standards that could tell
    double place = 0.0;       ///< where the shift is stated: the middle reading, in its unit
    double shift = 0.0;       ///< of the run above the library there, in the unit
    double uncertainty = 0.0; ///< standard uncertainty of the shift, same unit
    double slope = 0.0;       ///< by how much the shift grows, per unit of the scale of the line
    double accident = 0.0;    ///< probability that the run is not as the library's are
    double second = 0.0;      ///< probability of the next place where the run may lie as well
    bool fits = true;         ///< false: no place explains the features better than chance
};

/// Fewer readings than this leave a run where any run may lie.
inline constexpr std::size_t kFewestToRegister = 2;

/// Finds how a run lies against the library from all its features, whichever compounds they are,
/// and from its standards: Bayes' rule over offset and slope (`run_prior`), refined where the run
/// may lie, together with the share of unlisted features (MODEL.md, section 2). Sets the `shifts`
/// of each observation: what the others of the run say there. Several places are kept where several
/// explain the run. A feature beside a standard tells nothing more. Observations at the start or
/// the front tell nothing; of more than 150 on a system an even choice does. The answer holds a
/// system only where at least two readings tell of it.
std::vector<RegisteredSystem> register_run(std::span<SampleFeature> features,
                                           const Knowledge &knowledge,
                                           std::span<const NearbyCandidates> nearby,
                                           const SamplePrior &prior);

/// Where the candidates lie that may have shown an observation, wherever its run will be found.
/// Those that are near only since nothing is nearer (`kClosest`) may lie farther. `reach` is that
/// of all candidates; the observation must not be censored.
[[nodiscard]] Stretch stretch_in_reach(const SystemModel &system, const Reach &reach,
                                       const Observation &observation);

} // namespace cospot::matcher
