#include "identification/identification.h"

#include "library/compounds.h"
#include "shared/quantity.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <span>

namespace cospot {

namespace {

using matcher::Censoring;
using matcher::Ranking;

/// Below this the density of unlisted compounds rests on too few values.
constexpr std::size_t kFewCompounds = 5;

/// What stereoisomers share: the first block of the InChIKey.
std::string skeleton(const std::string &inchikey) {
    return inchikey.substr(0, 14);
}

ProposedStructure compound_of(const matcher::RankedCandidate &candidate,
                              const LibraryEvidence &evidence, library::Database &database) {
    const std::size_t held = evidence.compound_ids.size();
    if (candidate.compound >= held) {
        return evidence.proposed[candidate.compound - held];
    }
    const library::Compound compound =
        library::find_compound(database, evidence.compound_ids[candidate.compound]).value();
    return {compound.name, compound.inchikey};
}

std::vector<std::string> names_in_set(const Ranking &ranking, double coverage,
                                      const LibraryEvidence &evidence,
                                      library::Database &database) {
    const matcher::CandidateSet set = matcher::candidate_set(ranking, coverage);
    std::vector<std::string> names;
    bool unlisted_is_due = set.unlisted;
    for (std::size_t i = 0; i < set.candidates; ++i) {
        const matcher::RankedCandidate &candidate = ranking.candidates[i];
        if (unlisted_is_due && ranking.unlisted >= candidate.probability) {
            names.emplace_back("unlisted");
            unlisted_is_due = false;
        }
        names.push_back(compound_of(candidate, evidence, database).name);
    }
    if (unlisted_is_due) {
        names.emplace_back("unlisted");
    }
    return names;
}

void warn_of_observation(const FeatureObservation &observation, const matcher::SystemModel &model,
                         std::vector<std::string> &warnings) {
    switch (matcher::censoring(observation.quantity, observation.value)) {
    case Censoring::at_start:
        warnings.emplace_back("at the start: says only that it does not move here; weak evidence");
        break;
    case Censoring::at_front:
        warnings.emplace_back("at the front: says only that it is not held here; weak evidence");
        break;
    case Censoring::none:
        break;
    }
    if (model.candidates.empty()) {
        warnings.push_back(fmt::format("nothing to compare with: the library holds no {} on {}",
                                       to_text(observation.quantity), observation.system));
    } else if (model.candidates.size() < kFewCompounds) {
        warnings.push_back(fmt::format("the library holds only {} compounds on {}: what an "
                                       "unlisted one would show is a guess",
                                       model.candidates.size(), observation.system));
    } else if (model.spread.is_assumed()) {
        warnings.push_back(fmt::format("no compound was measured in two runs on {}: the spread is "
                                       "assumed",
                                       observation.system));
    }
}

std::string level_of(const Feature &feature, const Ranking &ranking) {
    std::set<std::string> systems;
    for (const FeatureObservation &observation : feature.observations) {
        systems.insert(observation.system);
    }
    if (systems.empty() || ranking.candidates.empty()) {
        return "unknown (level 4 of Sumner et al. 2007)";
    }
    if (systems.size() == 1) {
        return "tentative proposal from retention on one system (below level 2 of Sumner et al. "
               "2007)";
    }
    return fmt::format("tentative proposal from retention on {} systems (below level 1 of Sumner "
                       "et al. 2007, which asks for an orthogonal property)",
                       systems.size());
}

void list_candidates(Identification &result, const Ranking &ranking, const Feature &feature,
                     const LibraryEvidence &evidence, library::Database &database,
                     std::span<const double> further, std::size_t top) {
    const auto observations = observations_of(feature, evidence);
    std::vector<std::string> skeletons;
    double listed = 0.0;
    for (std::size_t i = 0; i < std::min(top, ranking.candidates.size()); ++i) {
        const matcher::RankedCandidate &candidate = ranking.candidates[i];
        const ProposedStructure compound = compound_of(candidate, evidence, database);
        result.candidates.push_back(
            {compound.name, compound.inchikey, candidate.probability,
             matcher::compare(candidate.compound, observations, evidence.models),
             further.empty() ? 0.0 : further[candidate.compound]});
        skeletons.push_back(skeleton(compound.inchikey));
        listed += candidate.probability;
    }
    result.groups =
        matcher::group_candidates(ranking, observations, evidence.models, skeletons, further);
    result.unlisted = ranking.unlisted;
    result.other_count = ranking.candidates.size() - result.candidates.size();
    result.other = result.other_count > 0 ? std::max(0.0, 1.0 - listed - ranking.unlisted) : 0.0;
}

} // namespace

Identification identify_feature(const Feature &feature, const LibraryEvidence &evidence,
                                library::Database &database, const IdentificationOptions &options) {
    Identification result;
    result.warnings = feature.warnings;
    if (feature.observations.empty()) {
        // Nothing was learned: what was believed before stands.
        result.unlisted = options.prior.unlisted;
        result.other = 1.0 - options.prior.unlisted;
        result.other_count = compound_count(evidence);
        result.level = level_of(feature, {});
        return result;
    }
    const auto observations = observations_of(feature, evidence);
    const FurtherRatios further = further_ratios(feature.further, evidence.traits);
    const Ranking ranking =
        matcher::rank_candidates(observations, evidence.models, options.prior, further.log_ratios);
    for (std::size_t i = 0; i < observations.size(); ++i) {
        warn_of_observation(feature.observations[i], evidence.models[observations[i].system],
                            result.warnings);
        if (evidence.systems[observations[i].system].system.retired) {
            result.warnings.push_back(feature.observations[i].system +
                                      " is retired: its values do not count");
        }
    }
    result.warnings.insert(result.warnings.end(), further.warnings.begin(), further.warnings.end());
    list_candidates(result, ranking, feature, evidence, database, further.log_ratios, options.top);
    result.set = names_in_set(ranking, options.coverage, evidence, database);
    result.level = level_of(feature, ranking);
    return result;
}

} // namespace cospot
