#pragma once

#include "model/matcher/likelihood.h"

#include <cmath>
#include <cstdint>
#include <random>
#include <vector>

namespace cospot::matcher {

/// Retention indices of compounds in 12 runs, each of which shifts all of them (standard deviation
/// `shift_deviation`; readings scatter by 0.5 beyond that).
inline SystemModel shifting_system(const std::vector<double> &indices, double shift_deviation) {
    std::mt19937 engine(7);
    std::normal_distribution<double> normal;
    std::vector<double> shifts;
    for (int run = 0; run < 12; ++run) {
        shifts.push_back(shift_deviation * normal(engine));
    }
    std::vector<KnownValue> values;
    for (std::size_t compound = 0; compound < indices.size(); ++compound) {
        for (std::size_t run = 0; run < shifts.size(); ++run) {
            values.push_back({compound, static_cast<std::int64_t>(run), true,
                              indices[compound] + shifts[run] + 0.5 * normal(engine)});
        }
    }
    return fit_system(Technique::gc, Quantity::RI, values);
}

/// Indices from 900 on, 50 apart.
inline std::vector<double> even_indices(std::size_t count) {
    std::vector<double> indices;
    for (std::size_t i = 0; i < count; ++i) {
        indices.push_back(900.0 + 50.0 * static_cast<double>(i));
    }
    return indices;
}

} // namespace cospot::matcher
