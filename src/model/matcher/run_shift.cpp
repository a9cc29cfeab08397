#include "model/matcher/run_shift.h"

#include "shared/bisection.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace cospot::matcher {

namespace {

double probability_below(const ShiftMixture &mixture, double x) {
    double sum = 0.0;
    for (const auto &[weight, shift] : mixture) {
        const double deviation = std::sqrt(std::max(shift.variance, 1e-18));
        sum += 0.5 * weight * std::erfc((shift.mean - x) / (deviation * std::numbers::sqrt2));
    }
    return sum;
}

/// `low` and `high` enclose it.
double quantile(const ShiftMixture &mixture, double probability, double low, double high) {
    constexpr int halvings = 24;
    return bisected(low, high, halvings,
                    [&](double x) { return probability_below(mixture, x) < probability; });
}

} // namespace

RunShift typical(const ShiftMixture &mixture) {
    constexpr double one_deviation_below = 0.158655;
    constexpr double reach = 8.0; // in standard deviations
    const ShiftRange range = range_of(mixture);
    if (range.half_width <= 0.0) { // nothing moves it: usual runs and rare accidents
        return std::max_element(mixture.begin(), mixture.end(),
                                [](const auto &a, const auto &b) { return a.weight < b.weight; })
            ->shift;
    }
    const double width = range.half_width + reach * std::sqrt(range.largest_variance) + 1e-9;
    const double low = range.middle - width;
    const double high = range.middle + width;
    const double half = 0.5 * (quantile(mixture, 1.0 - one_deviation_below, low, high) -
                               quantile(mixture, one_deviation_below, low, high));
    return {quantile(mixture, 0.5, low, high), half * half};
}

ShiftRange range_of(const ShiftMixture &mixture) {
    double low = mixture.front().shift.mean;
    double high = low;
    ShiftRange range;
    for (const auto &[weight, shift] : mixture) {
        low = std::min(low, shift.mean);
        high = std::max(high, shift.mean);
        range.largest_variance = std::max(range.largest_variance, shift.variance);
    }
    range.middle = 0.5 * (low + high);
    range.half_width = 0.5 * (high - low);
    return range;
}

} // namespace cospot::matcher
