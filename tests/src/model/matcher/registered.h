#pragma once

#include "model/matcher/run_registration.h"
#include "shifting_library.h"

#include <algorithm>
#include <functional>
#include <random>
#include <utility>
#include <vector>

namespace cospot::matcher {

/// What `register_run` says of a run, and its features with their shifts.
struct Registered {
    std::vector<SampleFeature> features;
    std::vector<RegisteredSystem> systems;
};

inline Registered registered(std::vector<SampleFeature> features, const Knowledge &knowledge,
                             const SamplePrior &prior = {}) {
    auto systems = register_run(features, knowledge, nearby_candidates(knowledge), prior);
    return {std::move(features), std::move(systems)};
}

inline std::vector<SampleFeature> features_at(const std::vector<double> &values,
                                              double uncertainty = 0.3) {
    std::vector<SampleFeature> features;
    for (const double value : values) {
        features.push_back({{{0, value, uncertainty}}, {}});
    }
    return features;
}

/// Values of a run in which the given compounds stand `shift` above the library's means.
inline std::vector<double> shifted(const SystemModel &system,
                                   const std::vector<std::size_t> &compounds, double shift) {
    std::vector<double> values;
    for (const std::size_t compound : compounds) {
        values.push_back(system.candidates[compound].location + shift);
    }
    return values;
}

inline RunShift told(const SampleFeature &feature, const Knowledge &knowledge) {
    const Observation &observation = feature.observations.front();
    return typical_shift(observation, knowledge.systems[observation.system]);
}

/// Places at random, in order.
inline std::vector<double> uneven(std::size_t count, double low, double high, unsigned seed) {
    std::mt19937 engine(seed);
    std::uniform_real_distribution<double> place(low, high);
    std::vector<double> places(count);
    std::generate(places.begin(), places.end(), [&] { return place(engine); });
    std::sort(places.begin(), places.end());
    return places;
}

/// Sixty compounds between 900 and 2100, whose runs hardly shift.
inline Knowledge uneven_library() {
    return {{shifting_system(uneven(60, 900.0, 2100.0, 4), 0.0)}, {}};
}

/// Readings of twelve of its compounds, each with the scatter of the library's own; `moved` says
/// where a compound stands in the run.
inline std::vector<double> twelve_readings(const SystemModel &system,
                                           const std::function<double(double)> &moved,
                                           unsigned seed) {
    std::mt19937 engine(seed);
    std::normal_distribution<double> scatter(0.0, 0.5);
    std::vector<double> values;
    for (std::size_t compound = 2; compound < 60; compound += 5) {
        values.push_back(moved(system.candidates[compound].location) + scatter(engine));
    }
    return values;
}

} // namespace cospot::matcher
