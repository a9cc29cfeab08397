#include "model/matcher/groups.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace cospot::matcher {

namespace {

/// The shift of the run, though not known exactly, is the same for all compounds: it does not make
/// them alike.
CandidateDensity known_in_run(const Expectation &known, const Observation &observation,
                              const SystemModel &system) {
    return density_in_run(known, {typical_shift(observation, system).mean, 0.0}, system);
}

/// What a compound is expected to show for each observation; none where the system lacks it.
using Expected = std::vector<std::optional<CandidateDensity>>;

Expected expected_of(std::size_t compound, std::span<const Observation> observations,
                     std::span<const SystemModel> systems) {
    Expected expected;
    for (const Observation &observation : observations) {
        const SystemModel &system = systems[observation.system];
        const Expectation known = expectation_of(compound, observation, system);
        expected.push_back(known.is_known()
                               ? std::optional(known_in_run(known, observation, system))
                               : std::nullopt);
    }
    return expected;
}

/// Whether the densities of two compounds overlap by more than `limit` on every observed system
/// that holds both, and there is one.
bool overlap_everywhere(const Expected &a, const Expected &b, double limit) {
    bool compared = false;
    for (std::size_t i = 0; i < a.size(); ++i) {
        if (!a[i] || !b[i]) {
            continue;
        }
        compared = true;
        // Most pairs lie so far apart that the overlap itself need not be computed.
        if (most_overlap(*a[i], *b[i]) <= limit || overlap(*a[i], *b[i]) <= limit) {
            return false;
        }
    }
    return compared;
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
    std::vector<Expected> expected;
    for (std::size_t i = 0; i < std::min(skeletons.size(), ranking.candidates.size()); ++i) {
        const RankedCandidate &candidate = ranking.candidates[i];
        expected.push_back(expected_of(candidate.compound, observations, systems));
        const auto home = std::find_if(groups.begin(), groups.end(), [&](const Group &group) {
            const std::size_t leader = group.members.front();
            const bool stereoisomers = skeletons[leader] == skeletons[i];
            const std::size_t other = ranking.candidates[leader].compound;
            return !further_tells_apart(other, candidate.compound, further) &&
                   overlap_everywhere(expected[leader], expected[i],
                                      stereoisomers ? kStereoisomersIndistinguishable
                                                    : kIndistinguishable);
        });
        Group &group = home == groups.end() ? groups.emplace_back() : *home;
        group.members.push_back(i);
        group.probability += candidate.probability;
    }
    std::stable_sort(groups.begin(), groups.end(), [](const Group &a, const Group &b) {
        return order_key(a.probability) > order_key(b.probability);
    });
    return groups;
}

} // namespace cospot::matcher
