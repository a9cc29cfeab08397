#pragma once

#include <vector>

namespace cospot::matcher {

/// By how much all values of one run lie above the library's, on the model scale: a normal
/// distribution.
struct RunShift {
    double mean = 0.0;
    double variance = 0.0;
};

/// One of the ways in which a run may lie against the library, at the place of one reading.
struct WeightedShift {
    double weight = 1.0;
    RunShift shift;
};

/// What is believed of a run at the place of one reading; the weights sum to 1.
using ShiftMixture = std::vector<WeightedShift>;

/// What a reader is told of a mixture, which must not be empty: its middle, and the square of half
/// the width that holds its middle 68 %; where all parts lie at one place, the likeliest part.
[[nodiscard]] RunShift typical(const ShiftMixture &mixture);

/// The farthest that the components' means lie apart, as the middle between them and half the
/// distance.
struct ShiftRange {
    double middle = 0.0;
    double half_width = 0.0;
    double largest_variance = 0.0;
};
[[nodiscard]] ShiftRange range_of(const ShiftMixture &mixture);

} // namespace cospot::matcher
