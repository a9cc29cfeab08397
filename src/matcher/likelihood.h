#pragma once

#include "matcher/dependence.h"
#include "matcher/nearby.h"
#include "matcher/system_model.h"

#include <cstddef>
#include <span>
#include <vector>

namespace cospot::matcher {

/// One measured quantity of a feature on one system.
struct Observation {
    std::size_t system = 0;   ///< index of the system model
    double value = 0.0;       ///< in the unit of the quantity
    double uncertainty = 0.0; ///< standard uncertainty of this reading, in the same unit
};

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
/// `unlisted`. `shifts` holds for each system by how much this run is shifted.
[[nodiscard]] std::vector<LikelihoodRatio>
likelihood_ratios(std::span<const Observation> observations, const Knowledge &knowledge,
                  std::span<const NearbyCandidates> nearby, std::span<const RunShift> shifts);

/// What a feature may be but `unlisted`.
struct ListedCompounds {
    std::vector<std::size_t> candidates; ///< ascending
    std::size_t out_of_reach = 0;        ///< so many more, which the systems' models left out

    [[nodiscard]] std::size_t count() const { return candidates.size() + out_of_reach; }
};

/// The compounds that have a density on at least one system that the observations name.
[[nodiscard]] ListedCompounds listed_on(std::span<const Observation> observations,
                                        const Knowledge &knowledge);

/// The shifts of a run about which nothing is known but how runs vary.
[[nodiscard]] std::vector<RunShift> unknown_shifts(const Knowledge &knowledge);

} // namespace cospot::matcher
