#pragma once

#include <algorithm>
#include <cmath>
#include <iterator>
#include <stdexcept>
#include <utility>
#include <vector>

namespace cospot {

/// Standard deviation of normal values over the median of their distances from the centre
/// (hampel1974, from memory).
inline constexpr double kDeviationOfMedian = 1.4826;

/// The median; the mean of the two middle values where their number is even. Throws
/// std::invalid_argument when there are none.
[[nodiscard]] inline double median(std::vector<double> values) {
    if (values.empty()) {
        throw std::invalid_argument("median of no values");
    }
    const auto middle = values.begin() + std::ssize(values) / 2;
    std::nth_element(values.begin(), middle, values.end());
    if (values.size() % 2 == 1) {
        return *middle;
    }
    return (*std::max_element(values.begin(), middle) + *middle) / 2;
}

/// The value that nine tenths do not pass; `values` must not be empty.
[[nodiscard]] inline double upper_decile(std::vector<double> values) {
    const auto late = values.begin() + 9 * (std::ssize(values) - 1) / 10;
    std::nth_element(values.begin(), late, values.end());
    return *late;
}

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
    const double middle = upper_median(values);
    for (double &value : values) {
        value -= middle;
    }
    return deviation_about_zero(std::move(values));
}

} // namespace cospot
