#pragma once

#include <vector>

namespace cospot::transfer {

/// A smooth curve through scattered points and the scatter around it, both by local regression:
/// W. S. Cleveland, J. Am. Stat. Assoc. 1979, 74, 829 (straight lines, tricube weights, bisquare
/// weights against far-out points).
struct LocalTrend {
    std::vector<double> positions; ///< ascending
    std::vector<double> values;
    double span = 0.0; ///< share of the points that a line is fitted to; 0: no curve, all 0
    std::vector<double> misses;  ///< of each point when it is left out: value minus curve
    std::vector<double> weights; ///< of the points, against far-out ones
    double typical_miss = 0.0;   ///< as a standard deviation, from the median
};

/// Fits curves of several spans and keeps the one that predicts left-out points best; no curve at
/// all where that is as good. The points come in any order.
[[nodiscard]] LocalTrend fit_trend(const std::vector<double> &positions,
                                   const std::vector<double> &values);

/// The curve at a position; beyond the points it keeps the value of the end.
[[nodiscard]] double trend_at(const LocalTrend &trend, double position);

/// Standard deviation of points around the curve near a position.
[[nodiscard]] double scatter_at(const LocalTrend &trend, double position);

} // namespace cospot::transfer
