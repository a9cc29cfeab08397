#include "identification/candidate_terms.h"

#include "shared/robust.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace cospot {

namespace {

using matcher::CandidateDensity;
using matcher::SystemModel;

/// Logarithm of a ratio of probabilities, also where one was too small to be a number.
double log_odds(double probability, double unlisted) {
    constexpr double smallest = std::numeric_limits<double>::min();
    return std::log(std::max(probability, smallest)) - std::log(std::max(unlisted, smallest));
}

double probability_in(const matcher::Ranking &ranking, std::size_t compound) {
    const auto found = std::find_if(
        ranking.candidates.begin(), ranking.candidates.end(),
        [&](const matcher::RankedCandidate &candidate) { return candidate.compound == compound; });
    return found == ranking.candidates.end() ? 0.0 : found->probability;
}

/// The spread of a candidate in units of the middle one of those that were measured on the system.
double widening_of(const CandidateDensity &candidate, const SystemModel &system) {
    if (candidate.basis == matcher::Basis::measured) {
        return 1.0;
    }
    std::vector<double> scales;
    for (const CandidateDensity &other : system.candidates) {
        if (other.basis == matcher::Basis::measured) {
            scales.push_back(other.scale);
        }
    }
    if (scales.empty()) {
        return 1.0;
    }
    return candidate.scale / upper_median(std::move(scales));
}

std::vector<ReadingTerm> readings_of(std::size_t compound, const RankedRun &run,
                                     std::span<const matcher::Observation> observations) {
    std::vector<ReadingTerm> terms;
    for (const matcher::Comparison &comparison :
         matcher::compare(compound, observations, run.knowledge->systems)) {
        const matcher::Observation &observation = observations[comparison.observation];
        const SystemModel &system = run.knowledge->systems[observation.system];
        const matcher::Expectation expected =
            matcher::expectation_of(compound, observation, system);
        ReadingTerm term;
        term.comparison = comparison;
        term.log_ratio = matcher::log_density(expected, observation, system,
                                              matcher::shifts_at(observation, system)) -
                         matcher::log_density(system.unlisted, system.quantity, observation.value,
                                              observation.uncertainty);
        term.widening = expected.standard == nullptr ? widening_of(*expected.held, system) : 1.0;
        term.end = matcher::censoring(system.quantity, observation.value);
        terms.push_back(term);
    }
    return terms;
}

std::optional<Rival> rival_for(std::size_t compound, const RankedRun &run, std::size_t feature) {
    std::optional<Rival> rival;
    double least = kRivalWorthNaming;
    for (std::size_t other = 0; other < run.ranking->features.size(); ++other) {
        for (const matcher::RankedCandidate &candidate : run.ranking->features[other].candidates) {
            if (other == feature || candidate.probability < least) {
                break; // the likeliest come first
            }
            if (candidate.compound == compound) {
                rival = {other, candidate.probability};
                least = candidate.probability;
            }
        }
    }
    return rival;
}

/// The odds of each compound by the feature alone, and their sum with that of `unlisted`.
struct Alone {
    const std::vector<matcher::Edge> *edges;
    double total = 1.0;

    [[nodiscard]] double odds_of(std::size_t compound) const {
        const auto found =
            std::find_if(edges->begin(), edges->end(),
                         [&](const matcher::Edge &edge) { return edge.compound == compound; });
        return found == edges->end() ? 0.0 : found->odds;
    }
};

double log_ratio_of(std::size_t compound, const std::vector<matcher::LikelihoodRatio> &ratios) {
    const auto found =
        std::find_if(ratios.begin(), ratios.end(), [&](const matcher::LikelihoodRatio &ratio) {
            return ratio.compound == compound;
        });
    return found == ratios.end() ? 0.0 : found->log_ratio;
}

} // namespace

std::vector<CandidateTerms> candidate_terms(const RankedRun &run, std::size_t feature,
                                            std::span<const matcher::RankedCandidate> stated,
                                            double stated_unlisted) {
    const matcher::SampleFeature &observed = run.features[feature];
    const matcher::Ranking &joint = run.ranking->features[feature];
    const auto ratios =
        matcher::likelihood_ratios(observed.observations, *run.knowledge, run.nearby);
    Alone alone{&run.ranking->odds[feature]};
    for (const matcher::Edge &edge : *alone.edges) {
        alone.total += edge.odds;
    }
    std::vector<CandidateTerms> result;
    for (const matcher::RankedCandidate &candidate : stated) {
        const std::size_t compound = candidate.compound;
        const double odds = alone.odds_of(compound);
        const double log_retention = log_ratio_of(compound, ratios);
        CandidateTerms terms;
        terms.readings = readings_of(compound, run, observed.observations);
        terms.log_together = log_retention;
        for (const ReadingTerm &reading : terms.readings) {
            terms.log_together -= reading.log_ratio;
        }
        terms.log_further = observed.further.empty() ? 0.0 : observed.further[compound];
        terms.log_prior = log_odds(odds, 1.0) - log_retention - terms.log_further;
        terms.joint = probability_in(joint, compound);
        terms.log_competition = log_odds(terms.joint, joint.unlisted) - log_odds(odds, 1.0);
        terms.stated = candidate.probability;
        terms.log_recalibration =
            log_odds(terms.stated, stated_unlisted) - log_odds(terms.joint, joint.unlisted);
        terms.weight = run.prior->weight_of(compound);
        terms.run_weight =
            run.prior->weights.empty()
                ? matcher::run_weight(compound, observed.observations, *run.knowledge)
                : 1.0;
        terms.alone = odds / alone.total;
        terms.rival = rival_for(compound, run, feature);
        result.push_back(std::move(terms));
    }
    return result;
}

} // namespace cospot
