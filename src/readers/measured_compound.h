#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

namespace cospot::resolve {

/// One isocratic reading of a compound.
struct RetentionPoint {
    double fraction = 0.0; ///< volume fraction of the modifier, 0 to 1
    double k = 0.0;        ///< retention factor, above 0
};

/// Fractions closer than this are one: no pump tells them apart, and a line through them is chance.
inline constexpr double kLeastSpan = 0.005;

/// From the lowest to the highest fraction; 0 without readings.
[[nodiscard]] inline double fraction_span(const std::vector<RetentionPoint> &points) {
    const auto [low, high] =
        std::minmax_element(points.begin(), points.end(),
                            [](const auto &a, const auto &b) { return a.fraction < b.fraction; });
    return points.empty() ? 0.0 : high->fraction - low->fraction;
}

/// A compound with all its readings, at two fractions or more.
struct MeasuredCompound {
    std::string name;
    std::vector<RetentionPoint> points;
    std::optional<double> log_p; ///< of its structure, where a library knows it; uncharged form
};

} // namespace cospot::resolve
