#include "matcher/likelihood.h"

#include <algorithm>

namespace cospot::matcher {

namespace {

bool is_open(const SystemModel &system, const Observation &observation) {
    return censoring(system.quantity, observation.value) == Censoring::none;
}

/// What makes readings of unlisted compounds on several systems go together.
double unlisted_dependence(std::span<const Observation> observations, const Knowledge &knowledge) {
    std::vector<RankedReading> ranks;
    for (const Observation &observation : observations) {
        const SystemModel &system = knowledge.systems[observation.system];
        if (is_open(system, observation)) {
            ranks.push_back({observation.system, probability_below(system.unlisted, system.quantity,
                                                                   observation.value)});
        }
    }
    return log_dependence(knowledge.dependence.unlisted, ranks);
}

double compound_dependence(std::size_t compound, const ErrorCorrelation &correlation,
                           std::span<const Observation> observations, const Knowledge &knowledge,
                           std::span<const RunShift> shifts) {
    std::vector<RankedReading> ranks;
    for (const Observation &observation : observations) {
        const SystemModel &system = knowledge.systems[observation.system];
        const CandidateDensity *candidate = find_candidate(system, compound);
        if (candidate != nullptr && candidate->basis != Basis::measured &&
            is_open(system, observation)) {
            ranks.push_back(
                {observation.system,
                 probability_below(*candidate, system.quantity, observation.value,
                                   observation.uncertainty, shifts[observation.system])});
        }
    }
    return log_dependence(correlation, ranks);
}

} // namespace

std::vector<LikelihoodRatio> likelihood_ratios(std::span<const Observation> observations,
                                               const Knowledge &knowledge,
                                               std::span<const RunShift> shifts) {
    std::vector<double> sums; // by compound
    std::vector<bool> has_density;
    for (const Observation &observation : observations) {
        const SystemModel &system = knowledge.systems[observation.system];
        const double unlisted = log_density(system.unlisted, system.quantity, observation.value);
        if (!system.candidates.empty()) {
            const std::size_t end = system.candidates.back().compound + 1;
            sums.resize(std::max(sums.size(), end));
            has_density.resize(sums.size());
        }
        for (const CandidateDensity &candidate : system.candidates) {
            sums[candidate.compound] +=
                log_density(candidate, system.quantity, observation.value, observation.uncertainty,
                            shifts[observation.system]) -
                unlisted;
            has_density[candidate.compound] = true;
        }
    }
    const bool several = observations.size() > 1;
    const double unlisted = several ? unlisted_dependence(observations, knowledge) : 0.0;
    std::vector<LikelihoodRatio> result;
    for (std::size_t compound = 0; compound < sums.size(); ++compound) {
        if (!has_density[compound]) {
            continue;
        }
        const auto own = knowledge.dependence.compounds.find(compound);
        const double together =
            several && own != knowledge.dependence.compounds.end()
                ? compound_dependence(compound, own->second, observations, knowledge, shifts)
                : 0.0;
        result.push_back({compound, sums[compound] + together - unlisted});
    }
    return result;
}

std::vector<RunShift> unknown_shifts(const Knowledge &knowledge) {
    std::vector<RunShift> shifts;
    for (const SystemModel &system : knowledge.systems) {
        shifts.push_back(system.shift);
    }
    return shifts;
}

} // namespace cospot::matcher
