#pragma once

#include <vector>

namespace cospot::transfer {

/// How widely misses scatter about zero, depending on where they are.
struct LocalScatter {
    std::vector<double> positions; ///< ascending
    std::vector<double> misses;
    double typical_miss = 0.0; ///< as a standard deviation, from the median
};

/// The points come in any order; there must be one at least.
[[nodiscard]] LocalScatter fit_scatter(const std::vector<double> &positions,
                                       const std::vector<double> &misses);

/// Standard deviation near a position: from the mean distance of the quarter of the points that is
/// nearest (20 at least), held back by all of them with a weight of ten. What is farther than six
/// typical misses counts as so far. Beyond the points it keeps the value of the end.
[[nodiscard]] double scatter_at(const LocalScatter &scatter, double position);

} // namespace cospot::transfer
