#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace cospot::signal {

/// A polynomial through the points around a place, by least squares, as far as its second
/// derivative there (savitzky1964, from memory; for uneven axes as well).
struct LocalFit {
    double value = 0.0;
    double slope = 0.0;
    double curvature = 0.0;
    std::size_t first = 0;             ///< of the points that were used
    std::vector<double> slope_factors; ///< by which these points enter the slope
};

/// Points from `begin` up to, not including, `end` of a trace.
struct Range {
    std::size_t begin = 0;
    std::size_t end = 0;
};

/// Fits the points of `allowed` within `reach` of `at`, or, where these are fewer than
/// `degree` + 2, as many as that which are nearest. Nothing where `allowed` has too few.
[[nodiscard]] std::optional<LocalFit> local_fit(std::span<const double> x,
                                                std::span<const double> y, double at, double reach,
                                                int degree, Range allowed);

} // namespace cospot::signal
