#include "identification/explanation.h"

#include <algorithm>
#include <set>
#include <string>

namespace cospot {

namespace {

/// The best measurement to decide a tie on a system that the feature was not seen on yet.
std::optional<Separation> best_measurement(const Tie &tie, const Feature &feature,
                                           const Identification &identification,
                                           const LibraryEvidence &evidence,
                                           MeasuredSystems &systems) {
    const std::size_t first = identification.candidates[tie.first].compound;
    const std::size_t second = identification.candidates[tie.second].compound;
    if (std::max(first, second) >= evidence.compound_ids.size()) {
        return std::nullopt; // proposed by the user: the library holds no values
    }
    std::set<std::string> observed;
    for (const FeatureObservation &observation : feature.observations) {
        observed.insert(observation.system);
    }
    const library::CompoundId first_id = evidence.compound_ids[first];
    const library::CompoundId second_id = evidence.compound_ids[second];
    return largest_separation(systems.holding_both(first_id, second_id, observed), first_id,
                              second_id);
}

std::vector<matcher::RankedCandidate> stated_of(const Identification &identification) {
    std::vector<matcher::RankedCandidate> stated;
    for (const ProposedCompound &candidate : identification.candidates) {
        stated.push_back({candidate.compound, candidate.probability});
    }
    return stated;
}

} // namespace

std::vector<Explanation> explain_sample(std::span<const Feature *const> features,
                                        const SampleIdentification &sample,
                                        const LibraryEvidence &evidence,
                                        const IdentificationOptions &options,
                                        MeasuredSystems &systems) {
    const RankedRun run{sample.observed, &sample.ranking, &evidence.knowledge, evidence.nearby,
                        &options.prior.feature};
    std::vector<std::size_t> observed; // positions of the features that were ranked
    for (std::size_t i = 0; i < features.size(); ++i) {
        if (!features[i]->observations.empty()) {
            observed.push_back(i);
        }
    }
    std::vector<Explanation> explanations(features.size());
    for (std::size_t ranked = 0; ranked < observed.size(); ++ranked) {
        const std::size_t i = observed[ranked];
        const Identification &identification = sample.features[i];
        Explanation &explanation = explanations[i];
        explanation.candidates =
            candidate_terms(run, ranked, stated_of(identification),
                            identification.unlisted + identification.not_measured);
        for (CandidateTerms &terms : explanation.candidates) {
            if (terms.rival) {
                terms.rival->feature = observed[terms.rival->feature];
            }
        }
        for (const Tie &tie : near_ties(identification)) {
            explanation.ties.push_back(
                {tie, best_measurement(tie, *features[i], identification, evidence, systems)});
        }
    }
    return explanations;
}

} // namespace cospot
