#include "matcher/ranking.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace cospot::matcher {

namespace {

/// Sum over the observations of how much better a compound explains them than `unlisted` does,
/// in natural logarithms, for each compound measured on one of the systems.
std::map<std::size_t, double> log_likelihood_ratios(std::span<const Observation> observations,
                                                    std::span<const SystemModel> systems) {
    std::map<std::size_t, double> ratios;
    for (const Observation &observation : observations) {
        const SystemModel &system = systems[observation.system];
        const double unlisted = log_density(system.unlisted, system.quantity, observation.value);
        for (const CandidateDensity &candidate : system.candidates) {
            ratios[candidate.compound] += log_density(candidate, system.quantity, observation.value,
                                                      observation.uncertainty) -
                                          unlisted;
        }
    }
    return ratios;
}

double weight_of(const Prior &prior, std::size_t compound) {
    return prior.weights.empty() ? 1.0 : prior.weights[compound];
}

} // namespace

Ranking rank_candidates(std::span<const Observation> observations,
                        std::span<const SystemModel> systems, const Prior &prior,
                        std::span<const double> further) {
    const std::map<std::size_t, double> ratios = log_likelihood_ratios(observations, systems);
    double total_weight = 0.0;
    for (const auto &[compound, ratio] : ratios) {
        total_weight += weight_of(prior, compound);
    }
    Ranking ranking;
    if (total_weight <= 0.0) {
        return ranking;
    }
    // Odds against `unlisted`; the largest logarithm is taken out so that nothing overflows.
    const double log_unlisted = std::log(prior.unlisted);
    double largest = log_unlisted;
    for (const auto &[compound, ratio] : ratios) {
        const double share = (1 - prior.unlisted) * weight_of(prior, compound) / total_weight;
        const double log_odds =
            std::log(share) + ratio + (further.empty() ? 0.0 : further[compound]);
        largest = std::max(largest, log_odds);
        ranking.candidates.push_back({compound, log_odds});
    }
    double sum = std::exp(log_unlisted - largest);
    for (RankedCandidate &candidate : ranking.candidates) {
        candidate.probability = std::exp(candidate.probability - largest);
        sum += candidate.probability;
    }
    for (RankedCandidate &candidate : ranking.candidates) {
        candidate.probability /= sum;
    }
    ranking.unlisted = std::exp(log_unlisted - largest) / sum;
    std::stable_sort(ranking.candidates.begin(), ranking.candidates.end(),
                     [](const auto &a, const auto &b) { return a.probability > b.probability; });
    return ranking;
}

std::vector<Comparison> compare(std::size_t compound, std::span<const Observation> observations,
                                std::span<const SystemModel> systems) {
    std::vector<Comparison> comparisons;
    for (std::size_t i = 0; i < observations.size(); ++i) {
        const Observation &observation = observations[i];
        const SystemModel &system = systems[observation.system];
        const CandidateDensity *candidate = find_candidate(system, compound);
        if (candidate == nullptr) {
            continue;
        }
        Comparison comparison;
        comparison.observation = i;
        comparison.expected = candidate->mean;
        comparison.spread = spread_in_units(*candidate, system.quantity, observation.uncertainty);
        comparison.deviation = observation.value - candidate->mean;
        comparison.basis = candidate->basis;
        comparison.runs = candidate->runs;
        comparisons.push_back(comparison);
    }
    return comparisons;
}

CandidateSet candidate_set(const Ranking &ranking, double coverage) {
    CandidateSet set;
    double covered = 0.0;
    while (covered < coverage) {
        const bool more = set.candidates < ranking.candidates.size();
        const double next = more ? ranking.candidates[set.candidates].probability : -1.0;
        if (!set.unlisted && ranking.unlisted >= next) {
            set.unlisted = true;
            covered += ranking.unlisted;
        } else if (more) {
            ++set.candidates;
            covered += next;
        } else {
            break;
        }
    }
    return set;
}

} // namespace cospot::matcher
