#include "matcher/run_shift.h"

#include <algorithm>
#include <cmath>

namespace cospot::matcher {

namespace {

constexpr int kSteps = 30;     ///< of the grid, on each side
constexpr double kReach = 4.0; ///< of the grid, in standard deviations of the prior

/// Logarithm of how well a shift explains one observation, up to a constant.
double log_evidence(const Observation &observation, const SystemModel &system, double shift,
                    const Prior &prior, double total_weight) {
    const double unlisted = log_density(system.unlisted, system.quantity, observation.value);
    double sum = prior.unlisted;
    for (const CandidateDensity &candidate : system.candidates) {
        const double share =
            (1.0 - prior.unlisted) * prior.weight_of(candidate.compound) / total_weight;
        sum += share * std::exp(log_density(candidate, system.quantity, observation.value,
                                            observation.uncertainty, {shift, 0.0}) -
                                unlisted);
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

RunShift shift_on(const SystemModel &system, const std::vector<Observation> &observations,
                  const Prior &prior) {
    double total_weight = 0.0;
    for (const CandidateDensity &candidate : system.candidates) {
        total_weight += prior.weight_of(candidate.compound);
    }
    const double deviation = std::sqrt(system.shift.variance);
    std::vector<double> shifts;
    std::vector<double> logs;
    for (int step = -kSteps; step <= kSteps; ++step) {
        const double standardised = kReach * step / kSteps;
        double log_posterior = -0.5 * standardised * standardised;
        for (const Observation &observation : observations) {
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
                                      const Knowledge &knowledge, const Prior &prior) {
    std::vector<RunShift> shifts = unknown_shifts(knowledge);
    for (std::size_t i = 0; i < shifts.size(); ++i) {
        const SystemModel &system = knowledge.systems[i];
        const auto observations = observed_on(i, features, system.quantity);
        if (system.shift.variance > 0.0 && observations.size() >= kFewestForShift) {
            shifts[i] = shift_on(system, observations, prior);
        }
    }
    return shifts;
}

} // namespace cospot::matcher
