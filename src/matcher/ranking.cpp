#include "matcher/ranking.h"

#include <algorithm>
#include <cmath>

namespace cospot::matcher {

double Prior::weight_of(const ListedCompounds &listed) const {
    if (weights.empty()) {
        return static_cast<double>(listed.count());
    }
    double sum = 0.0;
    for (const std::size_t compound : listed.candidates) {
        sum += weights[compound];
    }
    return sum;
}

Ranking rank_candidates(std::span<const Observation> observations, const Knowledge &knowledge,
                        std::span<const NearbyCandidates> nearby, const Prior &prior) {
    const auto ratios =
        likelihood_ratios(observations, knowledge, nearby, unknown_shifts(knowledge));
    const double total_weight = prior.weight_of(listed_on(observations, knowledge));
    Ranking ranking;
    if (total_weight <= 0.0) {
        return ranking;
    }
    // Odds against `unlisted`; the largest logarithm is taken out so that nothing overflows.
    const double log_unlisted = std::log(prior.unlisted);
    double largest = log_unlisted;
    for (const auto &[compound, ratio] : ratios) {
        const double share = (1 - prior.unlisted) * prior.weight_of(compound) / total_weight;
        const double log_odds = std::log(share) + ratio;
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
    sort_by_probability(ranking);
    return ranking;
}

void sort_by_probability(Ranking &ranking) {
    std::sort(ranking.candidates.begin(), ranking.candidates.end(),
              [](const RankedCandidate &a, const RankedCandidate &b) {
                  const std::uint64_t first = order_key(a.probability);
                  const std::uint64_t second = order_key(b.probability);
                  return first != second ? first > second : a.compound < b.compound;
              });
}

std::vector<Comparison> compare(std::size_t compound, std::span<const Observation> observations,
                                std::span<const SystemModel> systems,
                                std::span<const RunShift> shifts) {
    std::vector<Comparison> comparisons;
    for (std::size_t i = 0; i < observations.size(); ++i) {
        const Observation &observation = observations[i];
        const SystemModel &system = systems[observation.system];
        const CandidateDensity *candidate = find_candidate(system, compound);
        if (candidate == nullptr) {
            continue;
        }
        const RunShift &shift = shifts[observation.system];
        Comparison comparison;
        comparison.observation = i;
        comparison.expected = from_model_scale(system.quantity, candidate->location + shift.mean);
        comparison.spread =
            spread_in_units(*candidate, system.quantity, observation.uncertainty, shift);
        comparison.deviation = observation.value - comparison.expected;
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
