#pragma once

#include "fractions/fraction.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace cospot::fractions {

/// What the spots of neighbouring fractions say of how far one component may differ between lanes.
struct LaneScatter {
    double scatter = 0.0;  ///< standard deviation of a difference, by its median
    std::size_t pairs = 0; ///< of spots that told it
    std::optional<double>
        least_gap; ///< between two spots of one fraction, which are two components
};

/// The scatter over neighbouring fractions with as many spots each, paired in their order, those at
/// R_F 0 and 1 left out; nothing where fewer than six pairs tell it. A band that ends where another
/// begins is such a pair too: the median does not mind as long as they are few.
[[nodiscard]] std::optional<LaneScatter> lane_scatter(const std::vector<Fraction> &fractions);

/// The tolerance that follows: three times the scatter, but no less than what reading distances
/// explains, and no more than half of the least gap, since a spot may not fit two components.
[[nodiscard]] double tolerance_of(const LaneScatter &scatter, double by_reading);

} // namespace cospot::fractions
