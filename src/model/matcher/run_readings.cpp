#include "model/matcher/run_readings.h"

#include "model/matcher/reading_error.h"
#include "shared/robust.h"

#include <algorithm>
#include <cmath>

namespace cospot::matcher {

namespace {

constexpr std::size_t kMostReadings = 150;

RunReading reading_of(const SystemModel &system, double value, double uncertainty) {
    RunReading reading;
    reading.value = value;
    reading.uncertainty = uncertainty;
    reading.scaled = to_model_scale(system.quantity, value);
    reading.on_line = to_line_scale(system.quantity, reading.scaled);
    return reading;
}

bool is_beside_standard(const Observation &observation, const SystemModel &system) {
    constexpr double far = 3.0; // standard deviations
    if (!observation.standards) {
        return false;
    }
    return std::any_of(
        observation.standards->begin(), observation.standards->end(),
        [&](const StandardInRun &standard) {
            const double slope = scale_slope(system.quantity, standard.value);
            const double error = std::hypot(observation.uncertainty, standard.uncertainty) * slope;
            const double distance = to_model_scale(system.quantity, observation.value) -
                                    to_model_scale(system.quantity, standard.value);
            return std::abs(distance) <
                   far * std::hypot(error, std::sqrt(2.0 * standard.within_variance));
        });
}

/// Whether a reading is too uncertain to tell where its run lies.
bool is_vague(const Observation &observation, const SystemModel &system) {
    constexpr double spreads = 3.0;
    return error_of(system.quantity, observation.value, observation.uncertainty) >
           spreads * std::sqrt(system.spread.variance);
}

/// Whether a value lies so far off all that the system may show that no run could move it there.
bool is_absurd(double value, const SystemModel &system) {
    const double x = to_model_scale(system.quantity, value);
    const double range = system.unlisted.high - system.unlisted.low;
    return x < system.unlisted.low - range || x > system.unlisted.high + range;
}

void add_features(RunReadings &run, std::size_t system, std::span<SampleFeature> features) {
    std::vector<Observation *> telling;
    for (SampleFeature &feature : features) {
        for (Observation &observation : feature.observations) {
            if (observation.system != system ||
                censoring(run.system->quantity, observation.value) != Censoring::none) {
                continue;
            }
            if (is_absurd(observation.value, *run.system)) {
                ++run.absurd;
                continue;
            }
            const bool is_silent =
                is_beside_standard(observation, *run.system) || is_vague(observation, *run.system);
            (is_silent ? run.silent : telling).push_back(&observation);
        }
    }
    const std::size_t used = std::min(telling.size(), kMostReadings);
    std::size_t next = 0;
    for (std::size_t i = 0; i < telling.size(); ++i) {
        if (next < used && i == next * telling.size() / used) {
            run.features.push_back(
                reading_of(*run.system, telling[i]->value, telling[i]->uncertainty));
            run.features.back().observation = telling[i];
            // The candidates' densities there leave the reading's error out (`ListedDensity`).
            run.features.back().unlisted = std::exp(
                log_density(run.system->unlisted, run.system->quantity, telling[i]->value, 0.0));
            ++next;
        } else {
            run.silent.push_back(telling[i]);
        }
    }
}

/// All features of a run have the same standards on a system.
const StandardsInRun *standards_on(std::size_t system, std::span<const SampleFeature> features) {
    for (const SampleFeature &feature : features) {
        for (const Observation &observation : feature.observations) {
            if (observation.system == system && observation.standards) {
                return observation.standards.get();
            }
        }
    }
    return nullptr;
}

void add_standards(RunReadings &run, const StandardsInRun *standards) {
    if (standards == nullptr) {
        return;
    }
    for (const StandardInRun &standard : *standards) {
        const CandidateDensity *held = find_candidate(*run.system, standard.compound);
        if (held != nullptr && held->always == Censoring::none && held->basis == Basis::measured &&
            censoring(run.system->quantity, standard.value) == Censoring::none) {
            run.standards.push_back(reading_of(*run.system, standard.value, standard.uncertainty));
            run.standards.back().held = held;
            run.standards.back().unlisted = std::exp(log_density(
                run.system->unlisted, run.system->quantity, standard.value, standard.uncertainty));
        }
    }
}

} // namespace

RunReadings readings_on(std::size_t system, std::span<SampleFeature> features,
                        const Knowledge &knowledge) {
    RunReadings run;
    run.system = &knowledge.systems[system];
    run.prior = run_prior(*run.system);
    add_features(run, system, features);
    add_standards(run, standards_on(system, features));
    return run;
}

std::vector<std::uint32_t> candidates_of(const RunReadings &run, const NearbyCandidates &nearby) {
    std::vector<std::uint32_t> positions;
    for (const RunReading &reading : run.features) {
        const auto near =
            nearby.near(reading.value, reading.uncertainty, 0.0,
                        farthest_shift(run.prior, run.system->quantity, reading.value));
        positions.insert(positions.end(), near.begin(), near.end());
    }
    std::sort(positions.begin(), positions.end());
    positions.erase(std::unique(positions.begin(), positions.end()), positions.end());
    return positions;
}

void measure(RunReadings &run, std::span<const std::uint32_t> candidates) {
    std::vector<double> places;
    for (const auto *readings : {&run.features, &run.standards}) {
        for (const RunReading &reading : *readings) {
            places.push_back(reading.on_line);
            run.farthest = std::max(run.farthest, std::abs(reading.on_line - run.prior.centre));
        }
    }
    run.middle = upper_median(std::move(places));
    std::vector<double> scales{std::sqrt(run.system->spread.variance)};
    for (const std::uint32_t position : candidates) {
        scales.push_back(run.system->candidates[position].scale);
    }
    run.spread = upper_median(std::move(scales)) /
                 std::abs(model_per_line(run.system->quantity, run.middle));
}

} // namespace cospot::matcher
