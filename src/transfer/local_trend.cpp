#include "transfer/local_trend.h"

#include "shared/robust.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numeric>
#include <utility>

namespace cospot::transfer {

namespace {

constexpr std::array<double, 4> kSpans = {0.0, 0.8, 0.4, 0.2};
constexpr std::size_t kFewestForCurve = 15;
constexpr std::size_t kFewestInSpan = 8;
constexpr double kWorthwhile = 0.02;        ///< gain in the mean log loss that a curve must bring
constexpr double kDeviationOfMean = 1.2533; ///< standard deviation from the mean absolute error
constexpr std::size_t kNone = std::numeric_limits<std::size_t>::max();

/// The `count` positions nearest to one, as a range of the ascending list.
std::pair<std::size_t, std::size_t> nearest(const std::vector<double> &positions, double position,
                                            std::size_t count) {
    std::size_t first = static_cast<std::size_t>(
        std::lower_bound(positions.begin(), positions.end(), position) - positions.begin());
    std::size_t last = first;
    while (last - first < std::min(count, positions.size())) {
        const bool left =
            first > 0 && (last == positions.size() ||
                          position - positions[first - 1] <= positions[last] - position);
        left ? --first : ++last;
    }
    return {first, last};
}

double tricube(double distance) {
    const double rest = 1.0 - std::pow(std::min(distance, 1.0), 3);
    return rest * rest * rest;
}

/// The local line at `position`, without point `left_out`; `robustness` weighs the points.
double local_line(const std::vector<double> &positions, const std::vector<double> &values,
                  const std::vector<double> &robustness, double span, double position,
                  std::size_t left_out) {
    const auto wanted = std::max(
        kFewestInSpan, static_cast<std::size_t>(span * static_cast<double>(positions.size())));
    const double inside = std::clamp(position, positions.front(), positions.back());
    const auto [first, last] = nearest(positions, inside, wanted + 1);
    const double reach =
        1.001 * std::max(inside - positions[first], positions[last - 1] - inside) + 1e-12;
    double weights = 0.0;
    double sum_x = 0.0;
    double sum_y = 0.0;
    double sum_xx = 0.0;
    double sum_xy = 0.0;
    for (std::size_t i = first; i < last; ++i) {
        if (i == left_out) {
            continue;
        }
        const double x = (positions[i] - inside) / reach;
        const double weight = robustness[i] * tricube(std::abs(x)) + 1e-12;
        weights += weight;
        sum_x += weight * x;
        sum_y += weight * values[i];
        sum_xx += weight * x * x;
        sum_xy += weight * x * values[i];
    }
    // A little ridge on the slope where all points stand at one place.
    const double variance = sum_xx / weights - sum_x * sum_x / (weights * weights) + 1e-4;
    const double slope = (sum_xy / weights - sum_x * sum_y / (weights * weights)) / variance;
    return sum_y / weights - slope * sum_x / weights;
}

std::vector<double> absolute(std::vector<double> values) {
    for (double &value : values) {
        value = std::abs(value);
    }
    return values;
}

std::vector<double> left_out_misses(const LocalTrend &trend,
                                    const std::vector<double> &robustness) {
    std::vector<double> misses = trend.values;
    for (std::size_t i = 0; trend.span > 0.0 && i < misses.size(); ++i) {
        misses[i] -= local_line(trend.positions, trend.values, robustness, trend.span,
                                trend.positions[i], i);
    }
    return misses;
}

/// Bisquare weights: nothing beyond six median misses counts.
std::vector<double> robust_weights(const std::vector<double> &misses) {
    const double reach = 6.0 * std::max(upper_median(absolute(misses)), 1e-12);
    std::vector<double> weights;
    for (const double miss : misses) {
        const double rest = 1.0 - std::pow(std::min(std::abs(miss) / reach, 1.0), 2);
        weights.push_back(rest * rest);
    }
    return weights;
}

/// Mean logarithm of the misses, each as that of a distribution with heavy tails.
double loss(const std::vector<double> &misses, double unit) {
    double sum = 0.0;
    for (const double miss : misses) {
        sum += std::log1p(std::pow(miss / unit, 2));
    }
    return sum / static_cast<double>(misses.size());
}

/// Two passes: the second weighs the points by what they miss in the first.
void set_span(LocalTrend &trend, double span) {
    trend.span = span;
    const std::vector<double> all(trend.values.size(), 1.0);
    trend.misses = left_out_misses(trend, all);
    if (span > 0.0) {
        trend.misses = left_out_misses(trend, robust_weights(trend.misses));
    }
}

} // namespace

LocalTrend fit_trend(const std::vector<double> &positions, const std::vector<double> &values) {
    std::vector<std::size_t> order(positions.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return positions[a] < positions[b]; });
    LocalTrend best;
    for (const std::size_t i : order) {
        best.positions.push_back(positions[i]);
        best.values.push_back(values[i]);
    }
    set_span(best, 0.0);
    const double unit = std::max(upper_median(absolute(best.values)), 1e-12) / 2.0;
    double smallest = loss(best.misses, unit);
    for (const double span : kSpans) {
        LocalTrend trend = best;
        if (span > 0.0 && values.size() >= kFewestForCurve) {
            set_span(trend, span);
            const double now = loss(trend.misses, unit);
            if (now < smallest - kWorthwhile) {
                smallest = now;
                best = std::move(trend);
            }
        }
    }
    best.weights = robust_weights(best.misses);
    best.typical_miss = deviation_about_zero(best.misses);
    return best;
}

double trend_at(const LocalTrend &trend, double position) {
    return trend.span > 0.0 ? local_line(trend.positions, trend.values, trend.weights, trend.span,
                                         position, kNone)
                            : 0.0;
}

double scatter_at(const LocalTrend &trend, double position) {
    constexpr double share_nearby = 0.25;
    constexpr std::size_t fewest_nearby = 20;
    constexpr double weight_of_all = 10.0;
    const double reach = 6.0 * trend.typical_miss;
    const auto capped_mean = [&](std::size_t first, std::size_t last) {
        double sum = 0.0;
        for (std::size_t i = first; i < last; ++i) {
            sum += std::min(std::abs(trend.misses[i]), reach);
        }
        return kDeviationOfMean * sum / static_cast<double>(last - first);
    };
    const std::size_t count = trend.positions.size();
    const auto nearby = std::max(
        fewest_nearby, static_cast<std::size_t>(share_nearby * static_cast<double>(count)));
    const auto [first, last] =
        nearest(trend.positions,
                std::clamp(position, trend.positions.front(), trend.positions.back()), nearby);
    const auto n = static_cast<double>(last - first);
    return (n * capped_mean(first, last) + weight_of_all * capped_mean(0, count)) /
           (n + weight_of_all);
}

} // namespace cospot::transfer
