#include "identification/candidate_lines.h"

#include "model/matcher/groups.h"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

namespace cospot {

namespace {

/// Groups are looked for among so many of the likeliest candidates, without those at the end that
/// together hold the negligible share of what all candidates do. In a large library hundreds lie
/// near an observation, and comparing all of them takes longer than ranking them.
constexpr std::size_t kMostGrouped = 50;
constexpr double kNegligibleShare = 1e-3;

/// What stereoisomers share: the first block of the InChIKey.
std::string skeleton(const std::string &inchikey) {
    return inchikey.substr(0, 14);
}

std::size_t worth_grouping(const matcher::Ranking &ranking) {
    double rest = 0.0;
    for (const matcher::RankedCandidate &candidate : ranking.candidates) {
        rest += candidate.probability;
    }
    const double negligible = kNegligibleShare * rest;
    std::size_t count = 0;
    while (count < std::min(kMostGrouped, ranking.candidates.size()) && rest > negligible) {
        rest -= ranking.candidates[count].probability;
        ++count;
    }
    return count;
}

/// The groups of all candidates, by position in the ranking, as far as `top` candidates need them.
std::vector<matcher::Group> groups_of(const matcher::Ranking &ranking,
                                      std::span<const matcher::Observation> observations,
                                      std::span<const double> further,
                                      const LibraryEvidence &evidence, KnownCompounds &compounds,
                                      std::size_t top) {
    std::vector<std::string> skeletons;
    const std::size_t grouped = worth_grouping(ranking);
    for (std::size_t i = 0; i < grouped; ++i) {
        skeletons.push_back(skeleton(compounds.at(ranking.candidates[i].compound).inchikey));
    }
    auto groups = matcher::group_candidates(ranking, observations, evidence.knowledge.systems,
                                            skeletons, further);
    const std::size_t last = std::min(grouped + top, ranking.candidates.size());
    for (std::size_t i = grouped; i < last; ++i) {
        groups.push_back({{i}, ranking.candidates[i].probability});
    }
    return groups;
}

} // namespace

void list_candidates(Identification &result, const matcher::Ranking &ranking,
                     std::span<const matcher::Observation> observations,
                     std::span<const double> further, const LibraryEvidence &evidence,
                     KnownCompounds &compounds, std::size_t top) {
    double listed = 0.0;
    const auto add = [&](const matcher::RankedCandidate &candidate) {
        const ProposedStructure &compound = compounds.at(candidate.compound);
        result.candidates.push_back(
            {candidate.compound, compound.name, compound.inchikey, compound.smiles,
             candidate.probability,
             matcher::compare(candidate.compound, observations, evidence.knowledge.systems),
             further.empty() ? 0.0 : further[candidate.compound]});
        listed += candidate.probability;
    };
    for (const matcher::Group &found :
         groups_of(ranking, observations, further, evidence, compounds, top)) {
        const std::size_t room = top - result.candidates.size();
        if (found.members.size() > room && !result.groups.empty()) {
            break;
        }
        matcher::Group group{{}, found.probability};
        for (std::size_t i = 0; i < std::min(room, found.members.size()); ++i) {
            group.members.push_back(result.candidates.size());
            add(ranking.candidates[found.members[i]]);
        }
        group.not_listed = found.members.size() - group.members.size();
        result.groups.push_back(std::move(group));
        if (result.candidates.size() == top) {
            break;
        }
    }
    result.unlisted = ranking.unlisted;
    result.other_count = ranking.candidates.size() - result.candidates.size();
    result.other = result.other_count > 0 ? std::max(0.0, 1.0 - listed - ranking.unlisted) : 0.0;
}

} // namespace cospot
