#include "model/matcher/likelihood.h"

#include "model/matcher/reading_error.h"
#include "model/matcher/retention_scale.h"

#include <algorithm>

namespace cospot::matcher {

namespace {

bool is_open(const SystemModel &system, const Observation &observation) {
    return censoring(system.quantity, observation.value) == Censoring::none;
}

/// What makes readings of unlisted compounds on several systems go together.
double unlisted_dependence(std::span<const Observation> observations, const Knowledge &knowledge) {
    std::vector<PlacedReading> readings;
    for (const Observation &observation : observations) {
        const SystemModel &system = knowledge.systems[observation.system];
        if (is_open(system, observation)) {
            readings.push_back(
                {observation.system, to_model_scale(system.quantity, observation.value),
                 error_of(system.quantity, observation.value, observation.uncertainty)});
        }
    }
    double sum = 0.0;
    for (const JointReadings &kind : knowledge.dependence.unlisted) {
        sum += log_together(kind, readings);
    }
    return sum;
}

double compound_dependence(std::size_t compound, const std::vector<ErrorCorrelation> &kinds,
                           std::span<const Observation> observations, const Knowledge &knowledge) {
    std::vector<RankedReading> ranks;
    for (const Observation &observation : observations) {
        const SystemModel &system = knowledge.systems[observation.system];
        const Expectation expected = expectation_of(compound, observation, system);
        if (expected.held != nullptr && expected.standard == nullptr &&
            expected.held->basis != Basis::measured && is_open(system, observation)) {
            const double error =
                error_of(system.quantity, observation.value, observation.uncertainty);
            const double own = expected.held->scale * expected.held->scale;
            ranks.push_back(
                {observation.system,
                 probability_below(*expected.held, system.quantity, observation.value,
                                   observation.uncertainty, typical_shift(observation, system)),
                 own / (own + error * error)});
        }
    }
    return dependence_of_kinds(kinds, ranks);
}

} // namespace

std::vector<NearbyCandidates> nearby_candidates(const Knowledge &knowledge) {
    std::vector<NearbyCandidates> nearby;
    for (const SystemModel &system : knowledge.systems) {
        nearby.emplace_back(system);
    }
    return nearby;
}

std::set<const StandardsInRun *> distinct_standards(std::span<const Observation> observations) {
    std::set<const StandardsInRun *> standards;
    for (const Observation &observation : observations) {
        if (observation.standards) {
            standards.insert(observation.standards.get());
        }
    }
    return standards;
}

ListedCompounds listed_on(std::span<const Observation> observations, const Knowledge &knowledge) {
    std::set<std::size_t> systems;
    for (const Observation &observation : observations) {
        systems.insert(observation.system);
    }
    ListedCompounds listed;
    std::vector<std::size_t> &compounds = listed.candidates;
    for (const std::size_t system : systems) {
        const auto middle = std::ssize(compounds);
        for (const CandidateDensity &candidate : knowledge.systems[system].candidates) {
            compounds.push_back(candidate.compound);
        }
        std::inplace_merge(compounds.begin(), compounds.begin() + middle, compounds.end());
        listed.out_of_reach += knowledge.systems[system].out_of_reach;
    }
    const auto measured = std::ssize(compounds);
    for (const StandardsInRun *standards : distinct_standards(observations)) {
        for (const StandardInRun &standard : *standards) {
            compounds.push_back(standard.compound);
        }
    }
    std::sort(compounds.begin() + measured, compounds.end());
    std::inplace_merge(compounds.begin(), compounds.begin() + measured, compounds.end());
    compounds.erase(std::unique(compounds.begin(), compounds.end()), compounds.end());
    return listed;
}

namespace {

/// What the readings that a compound is near to say of it.
struct Reached {
    std::size_t compound = 0;
    double sum = 0.0;
    std::size_t readings = 0;
};

/// Adds what one observation says of the compounds near it and of the standards beside it.
void reach(const Observation &observation, const SystemModel &system,
           const NearbyCandidates &nearby, std::vector<Reached> &reached) {
    const double unlisted =
        log_density(system.unlisted, system.quantity, observation.value, observation.uncertainty);
    const ShiftMixture shifts = shifts_at(observation, system);
    const auto add = [&](const Expectation &expected, std::size_t compound) {
        reached.push_back(
            {compound, log_density(expected, observation, system, shifts) - unlisted, 1});
    };
    const auto positions = nearby.near(observation.value, observation.uncertainty, shifts);
    reached.reserve(reached.size() + positions.size());
    for (const std::uint32_t position : positions) {
        const CandidateDensity &candidate = system.candidates[position];
        if (!observation.standards) {
            add({&candidate, nullptr}, candidate.compound);
            continue;
        }
        const Expectation expected = expectation_of(candidate.compound, observation, system);
        if (expected.standard == nullptr) {
            add(expected, candidate.compound);
        }
    }
    if (observation.standards) {
        for (const StandardInRun &standard : *observation.standards) {
            add({find_candidate(system, standard.compound), &standard}, standard.compound);
        }
    }
}

/// Gathers the entries of one compound in one.
void gather(std::vector<Reached> &reached) {
    std::sort(reached.begin(), reached.end(),
              [](const Reached &a, const Reached &b) { return a.compound < b.compound; });
    std::size_t last = 0;
    for (std::size_t i = 1; i < reached.size(); ++i) {
        if (reached[i].compound == reached[last].compound) {
            reached[last].sum += reached[i].sum;
            ++reached[last].readings;
        } else {
            reached[++last] = reached[i];
        }
    }
    reached.resize(std::min(reached.size(), last + 1));
}

std::vector<Reached> reached_compounds(std::span<const Observation> observations,
                                       const Knowledge &knowledge,
                                       std::span<const NearbyCandidates> nearby) {
    std::vector<Reached> reached;
    for (const Observation &observation : observations) {
        const std::size_t system = observation.system;
        reach(observation, knowledge.systems[system], nearby[system], reached);
    }
    if (observations.size() > 1) {
        gather(reached);
    }
    return reached;
}

/// How many of the observations are on a system where the compound has a density.
std::size_t readings_with_density(std::size_t compound, std::span<const Observation> observations,
                                  const Knowledge &knowledge) {
    return static_cast<std::size_t>(
        std::count_if(observations.begin(), observations.end(), [&](const Observation &one) {
            return expectation_of(compound, one, knowledge.systems[one.system]).is_known();
        }));
}

} // namespace

std::vector<LikelihoodRatio> likelihood_ratios(std::span<const Observation> observations,
                                               const Knowledge &knowledge,
                                               std::span<const NearbyCandidates> nearby) {
    const bool several = observations.size() > 1;
    const double unlisted = several ? unlisted_dependence(observations, knowledge) : 0.0;
    const auto compounds = reached_compounds(observations, knowledge, nearby);
    std::vector<LikelihoodRatio> result;
    result.reserve(compounds.size());
    for (const auto &[compound, sum, readings] : compounds) {
        if (several && readings < readings_with_density(compound, observations, knowledge)) {
            continue;
        }
        const auto own = knowledge.dependence.compounds.find(compound);
        const double together =
            several && own != knowledge.dependence.compounds.end()
                ? compound_dependence(compound, own->second, observations, knowledge)
                : 0.0;
        result.push_back({compound, sum + together - unlisted});
    }
    return result;
}

} // namespace cospot::matcher
