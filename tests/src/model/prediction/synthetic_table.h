#pragma once

#include "model/prediction/retention_table.h"

#include <cmath>
#include <cstddef>
#include <random>
#include <vector>

namespace cospot::prediction {

/// An invented technique with a known law: the retention of a compound falls with the fraction of a
/// modifier, from a level and at a rate that its two descriptors set, and bends by an amount of its
/// own that no descriptor tells.
struct Law {
    double noise = 0.05;
    double own_bend = 0.2;
};

struct SyntheticCompound {
    CompoundFeatures features;
    double bend = 0.0;
};

inline double expected_value(const SyntheticCompound &compound, double modifier) {
    const double level = std::log1p(compound.features.descriptors[0]);
    const double polarity = std::log1p(compound.features.descriptors[1]);
    return 2.0 + level - 0.5 * polarity - (2.0 + 0.5 * level) * modifier +
           compound.bend * modifier * (1.0 - modifier);
}

inline SyntheticCompound draw_compound(const Law &law, std::mt19937 &generator) {
    std::uniform_real_distribution<double> range(0.0, 6.0);
    std::normal_distribution<double> normal;
    SyntheticCompound compound;
    compound.features.descriptors = {range(generator), range(generator), 1.0};
    const auto group = static_cast<std::uint32_t>(compound.features.descriptors[0]);
    compound.features.fingerprint = {{group, 1}, {100, 2}};
    compound.bend = law.own_bend * normal(generator);
    return compound;
}

struct SyntheticTable {
    RetentionTable table;
    std::vector<SyntheticCompound> compounds;
};

/// So many compounds, each measured once in every mixture.
inline SyntheticTable draw_table(std::size_t compounds, const std::vector<double> &modifiers,
                                 const Law &law, std::mt19937 &generator) {
    std::normal_distribution<double> normal;
    SyntheticTable drawn;
    for (const double modifier : modifiers) {
        drawn.table.mixtures.push_back({1.0 - modifier, modifier});
    }
    for (std::size_t c = 0; c < compounds; ++c) {
        drawn.compounds.push_back(draw_compound(law, generator));
        drawn.table.compounds.push_back(drawn.compounds.back().features);
        for (std::size_t e = 0; e < modifiers.size(); ++e) {
            drawn.table.values.push_back({c, e,
                                          expected_value(drawn.compounds.back(), modifiers[e]) +
                                              law.noise * normal(generator)});
        }
    }
    return drawn;
}

} // namespace cospot::prediction
