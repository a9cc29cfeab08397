#include "matcher/groups.h"

#include <algorithm>
#include <cmath>

namespace cospot::matcher {

namespace {

/// So far apart that the overlap, which takes long to compute, cannot matter: two normal densities
/// share 0.05 then, two Student t with 3 degrees of freedom 0.14.
bool are_far_apart(const CandidateDensity &a, const CandidateDensity &b) {
    return std::abs(a.location - b.location) > 2.0 * (a.scale + b.scale);
}

/// Smallest overlap of two compounds over the observed systems; 0 where no system holds both.
double joint_overlap(std::size_t a, std::size_t b, std::span<const Observation> observations,
                     std::span<const SystemModel> systems) {
    double smallest = 1.0;
    bool compared = false;
    for (const Observation &observation : observations) {
        const SystemModel &system = systems[observation.system];
        const CandidateDensity *first = find_candidate(system, a);
        const CandidateDensity *second = find_candidate(system, b);
        if (first != nullptr && second != nullptr && are_far_apart(*first, *second)) {
            return 0.0;
        }
        if (first != nullptr && second != nullptr) {
            smallest = std::min(smallest, overlap(*first, *second));
            compared = true;
        }
    }
    return compared ? smallest : 0.0;
}

bool further_tells_apart(std::size_t a, std::size_t b, std::span<const double> further) {
    return !further.empty() && std::abs(further[a] - further[b]) > std::log(kFurtherTellsApart);
}

} // namespace

std::vector<Group> group_candidates(const Ranking &ranking,
                                    std::span<const Observation> observations,
                                    std::span<const SystemModel> systems,
                                    std::span<const std::string> skeletons,
                                    std::span<const double> further) {
    std::vector<Group> groups;
    for (std::size_t i = 0; i < std::min(skeletons.size(), ranking.candidates.size()); ++i) {
        const RankedCandidate &candidate = ranking.candidates[i];
        const auto home = std::find_if(groups.begin(), groups.end(), [&](const Group &group) {
            const std::size_t leader = group.members.front();
            const bool stereoisomers = skeletons[leader] == skeletons[i];
            const std::size_t other = ranking.candidates[leader].compound;
            return !further_tells_apart(other, candidate.compound, further) &&
                   joint_overlap(other, candidate.compound, observations, systems) >
                       (stereoisomers ? kStereoisomersIndistinguishable : kIndistinguishable);
        });
        Group &group = home == groups.end() ? groups.emplace_back() : *home;
        group.members.push_back(i);
        group.probability += candidate.probability;
    }
    std::stable_sort(groups.begin(), groups.end(),
                     [](const Group &a, const Group &b) { return a.probability > b.probability; });
    return groups;
}

} // namespace cospot::matcher
