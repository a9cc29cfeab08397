#include "model/matcher/ranking.h"

#include <algorithm>
#include <cmath>
#include <set>

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
    return sum + out_of_reach * static_cast<double>(listed.out_of_reach);
}

namespace {

/// The systems that were observed, each once, where the numbers of runs tell something.
std::set<std::size_t> counted_systems(std::span<const Observation> observations,
                                      const Knowledge &knowledge) {
    std::set<std::size_t> systems;
    for (const Observation &observation : observations) {
        if (knowledge.systems[observation.system].run_counts.do_tell()) {
            systems.insert(observation.system);
        }
    }
    return systems;
}

/// Mean weight of the compounds that the model left out: over all of them it is 1.
double weight_out_of_reach(const SystemModel &system) {
    double left = static_cast<double>(system.out_of_reach);
    for (const CandidateDensity &candidate : system.candidates) {
        if (candidate.basis == Basis::measured) {
            left += 1.0 - weight_of_runs(system.run_counts, candidate.runs);
        }
    }
    return left / static_cast<double>(system.out_of_reach);
}

} // namespace

Prior with_run_counts(Prior prior, std::span<const Observation> observations,
                      const Knowledge &knowledge) {
    const std::set<std::size_t> systems = counted_systems(observations, knowledge);
    if (!prior.weights.empty() || systems.empty()) {
        return prior;
    }
    std::vector<double> counts;
    for (const std::size_t s : systems) {
        const SystemModel &system = knowledge.systems[s];
        for (const CandidateDensity &candidate : system.candidates) {
            if (candidate.compound >= prior.weights.size()) {
                prior.weights.resize(candidate.compound + 1, 0.0);
                counts.resize(candidate.compound + 1, 0.0);
            }
            if (candidate.basis == Basis::measured) {
                prior.weights[candidate.compound] +=
                    weight_of_runs(system.run_counts, candidate.runs);
                counts[candidate.compound] += 1.0;
            }
        }
        if (system.out_of_reach > 0) { // of one system only
            prior.out_of_reach = weight_out_of_reach(system);
        }
    }
    for (std::size_t compound = 0; compound < counts.size(); ++compound) {
        double &weight = prior.weights[compound];
        weight = counts[compound] > 0.0 ? weight / counts[compound] : 1.0;
    }
    return prior;
}

double run_weight(std::size_t compound, std::span<const Observation> observations,
                  const Knowledge &knowledge) {
    double sum = 0.0;
    double count = 0.0;
    for (const std::size_t s : counted_systems(observations, knowledge)) {
        const SystemModel &system = knowledge.systems[s];
        const CandidateDensity *candidate = find_candidate(system, compound);
        if (candidate != nullptr && candidate->basis == Basis::measured) {
            sum += weight_of_runs(system.run_counts, candidate->runs);
            count += 1.0;
        }
    }
    return count > 0.0 ? sum / count : 1.0;
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
