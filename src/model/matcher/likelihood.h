#pragma once

#include "model/matcher/dependence.h"
#include "model/matcher/nearby.h"
#include "model/matcher/observation.h"
#include "model/matcher/system_model.h"

#include <cstddef>
#include <set>
#include <span>
#include <vector>

namespace cospot::matcher {

/// What the library knows, ready to judge observations by.
struct Knowledge {
    std::vector<SystemModel> systems;
    Dependence dependence;
};

/// How much better a compound explains the observations of a feature than `unlisted` does.
struct LikelihoodRatio {
    std::size_t compound = 0;
    double log_ratio = 0.0; ///< natural logarithm
};

/// The systems' candidates ordered for looking up, one for each system of the knowledge.
[[nodiscard]] std::vector<NearbyCandidates> nearby_candidates(const Knowledge &knowledge);

/// For each compound that is within reach of what was observed on every system where it has a
/// density (at least one), in any order; what others would add is negligible. Where a
/// compound has none on an observed system, that observation counts for it as it does for
/// `unlisted`. Standards beside an observation are compounds of its system.
[[nodiscard]] std::vector<LikelihoodRatio>
likelihood_ratios(std::span<const Observation> observations, const Knowledge &knowledge,
                  std::span<const NearbyCandidates> nearby);

/// The standards that ran beside some observations.
[[nodiscard]] std::set<const StandardsInRun *>
distinct_standards(std::span<const Observation> observations);

/// What a feature may be but `unlisted`.
struct ListedCompounds {
    std::vector<std::size_t> candidates; ///< ascending
    std::size_t out_of_reach = 0;        ///< so many more, which the systems' models left out

    [[nodiscard]] std::size_t count() const { return candidates.size() + out_of_reach; }
};

/// The compounds that have a density on at least one system that the observations name, or ran
/// beside one of them.
[[nodiscard]] ListedCompounds listed_on(std::span<const Observation> observations,
                                        const Knowledge &knowledge);

} // namespace cospot::matcher
