#include "matcher/run_shift.h"

#include <algorithm>
#include <cmath>

namespace cospot::matcher {

namespace {

constexpr int kSteps = 30; ///< of the grid, on each side

/// An observation with the candidates that it may be, whatever the shift.
struct Explained {
    Observation observation;
    double unlisted; ///< logarithm of its density if unlisted
    std::vector<std::uint32_t> candidates;
};

/// Logarithm of how well a shift explains one observation, up to a constant.
double log_evidence(const Explained &explained, const SystemModel &system, double shift,
                    const Prior &prior, double total_weight) {
    double sum = prior.unlisted;
    for (const std::uint32_t position : explained.candidates) {
        const CandidateDensity &candidate = system.candidates[position];
        const double share =
            (1.0 - prior.unlisted) * prior.weight_of(candidate.compound) / total_weight;
        sum += share * std::exp(log_density(candidate, system.quantity, explained.observation.value,
                                            explained.observation.uncertainty, {shift, 0.0}) -
                                explained.unlisted);
    }
    return std::log(sum);
}

std::vector<Observation> observed_on(std::size_t system,
                                     std::span<const std::vector<Observation>> features,
                                     Quantity quantity) {
    std::vector<Observation> observations;
    for (const auto &feature : features) {
        for (const Observation &observation : feature) {
            if (observation.system == system &&
                censoring(quantity, observation.value) == Censoring::none) {
                observations.push_back(observation);
            }
        }
    }
    return observations;
}

std::vector<Explained> explained_by(const SystemModel &system, const NearbyCandidates &nearby,
                                    const std::vector<Observation> &observations) {
    const double reach = kMostShift * std::sqrt(system.shift.variance);
    const std::size_t used = std::min(observations.size(), kMostForShift);
    std::vector<Explained> explained;
    for (std::size_t i = 0; i < used; ++i) {
        const Observation &one = observations[i * observations.size() / used];
        explained.push_back({one, log_density(system.unlisted, system.quantity, one.value),
                             nearby.near(one.value, one.uncertainty, {}, reach)});
    }
    return explained;
}

RunShift shift_on(const SystemModel &system, const std::vector<Explained> &observations,
                  const Prior &prior, double total_weight) {
    const double deviation = std::sqrt(system.shift.variance);
    std::vector<double> shifts;
    std::vector<double> logs;
    for (int step = -kSteps; step <= kSteps; ++step) {
        const double standardised = kMostShift * step / kSteps;
        double log_posterior = -0.5 * standardised * standardised;
        for (const Explained &observation : observations) {
            log_posterior +=
                log_evidence(observation, system, standardised * deviation, prior, total_weight);
        }
        shifts.push_back(standardised * deviation);
        logs.push_back(log_posterior);
    }
    const double largest = *std::max_element(logs.begin(), logs.end());
    double sum = 0.0;
    double mean = 0.0;
    double squares = 0.0;
    for (std::size_t i = 0; i < logs.size(); ++i) {
        const double weight = std::exp(logs[i] - largest);
        sum += weight;
        mean += weight * shifts[i];
        squares += weight * shifts[i] * shifts[i];
    }
    mean /= sum;
    return {mean, std::max(0.0, squares / sum - mean * mean)};
}

} // namespace

std::vector<RunShift> estimate_shifts(std::span<const std::vector<Observation>> features,
                                      const Knowledge &knowledge,
                                      std::span<const NearbyCandidates> nearby,
                                      const Prior &prior) {
    std::vector<RunShift> shifts = unknown_shifts(knowledge);
    for (std::size_t i = 0; i < shifts.size(); ++i) {
        const SystemModel &system = knowledge.systems[i];
        const auto observations = observed_on(i, features, system.quantity);
        if (system.shift.variance > 0.0 && observations.size() >= kFewestForShift) {
            shifts[i] =
                shift_on(system, explained_by(system, nearby[i], observations), prior,
                         prior.weight_of(listed_on(std::span(observations).first(1), knowledge)));
        }
    }
    return shifts;
}

Stretch stretch_in_reach(const SystemModel &system, const Reach &reach,
                         const Observation &observation) {
    const double most = kMostShift * std::sqrt(system.shift.variance);
    const double middle = to_model_scale(system.quantity, observation.value);
    const double width = reach.width(observation.uncertainty, most * most, most);
    return {middle - width, middle + width};
}

} // namespace cospot::matcher
