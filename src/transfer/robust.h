#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

namespace cospot::transfer {

/// Standard deviation of normal values over the median of their distances from the centre.
inline constexpr double kDeviationOfMedian = 1.4826;

/// The larger of the two in the middle where the count is even; `values` must not be empty.
[[nodiscard]] inline double median_of(std::vector<double> values) {
    const auto middle = values.begin() + std::ssize(values) / 2;
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// Standard deviation about the median, from the median distance; `values` must not be empty.
[[nodiscard]] inline double robust_deviation(std::vector<double> values) {
    const double median = median_of(values);
    for (double &value : values) {
        value = std::abs(value - median);
    }
    return kDeviationOfMedian * median_of(std::move(values));
}

} // namespace cospot::transfer
