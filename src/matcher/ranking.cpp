#include "matcher/ranking.h"

#include <algorithm>
#include <cmath>

namespace cospot::matcher {

double Prior::weight_of(const ListedCompounds &listed) const {
    double sum = 0.0;
    if (weights.empty()) {
        sum = static_cast<double>(listed.count());
        for (const auto &[compound, factor] : factors) {
            sum += factor - 1.0;
        }
        return sum;
    }
    for (const std::size_t compound : listed.candidates) {
        sum += weight_of(compound);
    }
    return sum;
}

HeldElsewhere add_held_elsewhere(Prior &prior, std::span<const Observation> observations,
                                 const Knowledge &knowledge, const ListedCompounds &listed) {
    HeldElsewhere held;
    bool is_first = true;
    for (const Observation &observation : observations) {
        const std::size_t here = knowledge.systems[observation.system].elsewhere;
        held.compounds = is_first ? here : std::min(held.compounds, here);
        is_first = false;
    }
    const auto count = static_cast<double>(held.compounds);
    if (held.compounds > 0) {
        const double mass = (1.0 - prior.unlisted) * count / (prior.weight_of(listed) + count);
        held.share = mass / (prior.unlisted + mass);
        prior.unlisted += mass;
    }
    return held;
}

Ranking rank_candidates(std::span<const Observation> observations, const Knowledge &knowledge,
                        std::span<const NearbyCandidates> nearby, const Prior &before) {
    const ListedCompounds listed = listed_on(observations, knowledge);
    Prior prior = before;
    add_held_elsewhere(prior, observations, knowledge, listed);
    const auto ratios = likelihood_ratios(observations, knowledge, nearby);
    const double total_weight = prior.weight_of(listed);
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

namespace {

int indirectness(Basis basis) {
    switch (basis) {
    case Basis::measured:
        return 0;
    case Basis::transferred:
        return 1;
    case Basis::same_run:
        return 2;
    case Basis::predicted:
        return 3;
    }
    return 0;
}

} // namespace

void note_bases(Ranking &ranking, std::span<const Observation> observations,
                std::span<const SystemModel> systems) {
    for (RankedCandidate &candidate : ranking.candidates) {
        candidate.basis = Basis::measured;
        for (const Observation &observation : observations) {
            const Expectation expected =
                expectation_of(candidate.compound, observation, systems[observation.system]);
            if (expected.is_known()) {
                const Basis here =
                    expected.standard != nullptr ? Basis::same_run : expected.held->basis;
                if (indirectness(here) > indirectness(candidate.basis)) {
                    candidate.basis = here;
                }
            }
        }
    }
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
                                std::span<const SystemModel> systems) {
    std::vector<Comparison> comparisons;
    for (std::size_t i = 0; i < observations.size(); ++i) {
        const Observation &observation = observations[i];
        const SystemModel &system = systems[observation.system];
        const Expectation expected = expectation_of(compound, observation, system);
        if (!expected.is_known()) {
            continue;
        }
        const CandidateDensity density = typical_density(expected, observation, system);
        Comparison comparison;
        comparison.observation = i;
        comparison.expected = from_model_scale(system.quantity, density.location);
        comparison.spread = spread_in_units(density, system.quantity, observation.uncertainty);
        comparison.deviation = observation.value - comparison.expected;
        comparison.basis = density.basis;
        comparison.runs = density.runs;
        if (expected.held != nullptr) {
            comparison.in_library = from_model_scale(system.quantity, expected.held->location);
        }
        if (expected.standard != nullptr) {
            comparison.beside = expected.standard->value;
        }
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
