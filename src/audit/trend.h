#pragma once

#include <vector>

namespace cospot {

/// One point of a series: `day` counts days from any origin.
struct SeriesPoint {
    double day = 0.0;
    double value = 0.0;
};

/// A monotone trend: the slope that Theil and Sen estimate (median of the slopes of all pairs;
/// sen1968) and the two-sided p value of the Mann-Kendall test, with ties and the normal
/// approximation (mann1945, kendall1948). All from memory. The test takes the points as
/// independent.
struct Trend {
    double slope_per_day = 0.0;
    double p_value = 1.0;
};

/// `points` in the order of days, at least two different days. Of more than 1000 points every n-th
/// is taken, so that the number of pairs stays bounded.
[[nodiscard]] Trend monotone_trend(const std::vector<SeriesPoint> &points);

} // namespace cospot
