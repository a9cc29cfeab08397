#include "identification/tie_breakers.h"

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

/// Less likely members of a group are not worth a measurement.
constexpr double kWorthMeasuring = 0.01;

struct RankedTie {
    Tie tie;
    double probability; ///< of the less likely side
};

Tie tie_between(std::size_t first, std::size_t second, const Identification &identification) {
    constexpr std::size_t skeleton = 14; // of an InChIKey, the same for stereoisomers
    const auto &candidates = identification.candidates;
    return {first, second,
            candidates[first].inchikey.substr(0, skeleton) ==
                candidates[second].inchikey.substr(0, skeleton)};
}

void add_ties_within(const matcher::Group &group, const Identification &identification,
                     std::vector<RankedTie> &ties) {
    for (std::size_t i = 1; i < group.members.size(); ++i) {
        const std::size_t member = group.members[i];
        const double probability = identification.candidates[member].probability;
        if (probability > kWorthMeasuring) {
            ties.push_back(
                {tie_between(group.members.front(), member, identification), probability});
        }
    }
}

} // namespace

double spreads_apart(const matcher::CandidateDensity &a, const matcher::CandidateDensity &b) {
    // Where both stay at the start, or both run with the front, nothing tells them apart.
    if (a.always == b.always && a.always != matcher::Censoring::none) {
        return 0.0;
    }
    return std::abs(a.location - b.location) / std::hypot(a.scale, b.scale);
}

std::vector<Tie> near_ties(const Identification &identification) {
    const std::vector<matcher::Group> &groups = identification.groups; // the likeliest first
    std::vector<RankedTie> ranked;
    for (std::size_t i = 0; i < groups.size() && groups[i].probability > kNearTieProbability; ++i) {
        add_ties_within(groups[i], identification, ranked);
        for (std::size_t j = i + 1; j < groups.size(); ++j) {
            if (groups[j].probability > kNearTieProbability &&
                groups[i].probability < kNearTieFactor * groups[j].probability) {
                ranked.push_back({tie_between(groups[i].members.front(), groups[j].members.front(),
                                              identification),
                                  groups[j].probability});
            }
        }
    }
    std::stable_sort(ranked.begin(), ranked.end(), [](const RankedTie &a, const RankedTie &b) {
        return a.probability > b.probability;
    });
    std::vector<Tie> ties;
    for (std::size_t i = 0; i < std::min(kMostTies, ranked.size()); ++i) {
        ties.push_back(ranked[i].tie);
    }
    return ties;
}

std::optional<Separation> largest_separation(std::span<const MeasuredSystem *const> systems,
                                             library::CompoundId first,
                                             library::CompoundId second) {
    std::optional<Separation> largest;
    for (const MeasuredSystem *system : systems) {
        const auto *a = matcher::find_candidate(system->model, static_cast<std::size_t>(first));
        const auto *b = matcher::find_candidate(system->model, static_cast<std::size_t>(second));
        if (a == nullptr || b == nullptr) {
            continue;
        }
        const double spreads = spreads_apart(*a, *b);
        if (!largest || spreads > largest->spreads) {
            largest = {system->name, system->quantity, spreads, a->mean, b->mean};
        }
    }
    return largest;
}

} // namespace cospot
