#pragma once

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

namespace cospot {

/// Standard deviation of normal values over the median of their distances from the centre (F. R.
/// Hampel, J. Am. Stat. Assoc. 1974, 69, 383; from memory).
inline constexpr double kDeviationOfMedian = 1.4826;

/// The larger of the two in the middle where the count is even; `values` must not be empty.
[[nodiscard]] inline double upper_median(std::vector<double> values) {
    const auto middle = values.begin() + std::ssize(values) / 2;
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// Standard deviation about zero, from the median distance; `values` must not be empty.
[[nodiscard]] inline double deviation_about_zero(std::vector<double> values) {
    for (double &value : values) {
        value = std::abs(value);
    }
    return kDeviationOfMedian * upper_median(std::move(values));
}

/// Standard deviation about the median, from the median distance; `values` must not be empty.
[[nodiscard]] inline double deviation_about_median(std::vector<double> values) {
    const double median = upper_median(values);
    for (double &value : values) {
        value -= median;
    }
    return deviation_about_zero(std::move(values));
}

} // namespace cospot
