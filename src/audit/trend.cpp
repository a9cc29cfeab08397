#include "audit/trend.h"

#include "audit/robust.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

namespace cospot {

namespace {

constexpr std::size_t kMostPoints = 1000;

std::vector<SeriesPoint> thinned(const std::vector<SeriesPoint> &points) {
    const std::size_t step = (points.size() + kMostPoints - 1) / kMostPoints;
    std::vector<SeriesPoint> kept;
    for (std::size_t i = 0; i < points.size(); i += step) {
        kept.push_back(points[i]);
    }
    return kept;
}

/// Variance of Kendall's sum of signs for n values of which some are tied.
double variance_of_sum(const std::vector<SeriesPoint> &points) {
    const auto term = [](double n) { return n * (n - 1) * (2 * n + 5) / 18; };
    std::map<double, double> ties;
    for (const SeriesPoint &point : points) {
        ties[point.value] += 1.0;
    }
    double variance = term(static_cast<double>(points.size()));
    for (const auto &[value, count] : ties) {
        variance -= term(count);
    }
    return variance;
}

} // namespace

Trend monotone_trend(const std::vector<SeriesPoint> &all_points) {
    const std::vector<SeriesPoint> points = thinned(all_points);
    std::vector<double> slopes;
    double sum = 0.0; // of the signs of later minus earlier
    for (std::size_t i = 0; i < points.size(); ++i) {
        for (std::size_t j = i + 1; j < points.size(); ++j) {
            const double rise = points[j].value - points[i].value;
            sum += rise > 0.0 ? 1.0 : (rise < 0.0 ? -1.0 : 0.0);
            const double days = points[j].day - points[i].day;
            if (days > 0.0) {
                slopes.push_back(rise / days);
            }
        }
    }
    const double variance = variance_of_sum(points);
    Trend trend{median(std::move(slopes)), 1.0};
    if (variance > 0.0) {
        // One step towards zero corrects for a sum that moves in steps.
        const double z = std::max(0.0, std::abs(sum) - 1.0) / std::sqrt(variance);
        trend.p_value = std::erfc(z / std::numbers::sqrt2);
    }
    return trend;
}

} // namespace cospot
