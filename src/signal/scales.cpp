#include "signal/scales.h"

#include "shared/robust.h"
#include "signal/maxima.h"
#include "signal/penalised_smoother.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace cospot::signal {

namespace {

constexpr double kFirstPeriod = 4.0; ///< points
constexpr double kClearDeviations = 8.0;
constexpr double kRangeFloor = 0.005; ///< of the range of the trace: no noise to go by
constexpr double kEvenSides = 0.6;    ///< least ratio of the rises from both valleys
constexpr double kDriftShare = 1.0 / 8.0;
constexpr double kOwnPeriod = 0.7; ///< least width over the period that it was found with
constexpr double kUnseenPoints = 12.0;
constexpr double kUnseenShare = 1.0 / 200.0;
constexpr double kUnseenRatio = 3.0;

struct ClearPeak {
    double x = 0.0;
    double width = 0.0;
};

/// Deviation of what lies between this period and four times as long ones, in the quieter third
/// of up to 30 windows: peaks fill the others.
double window_noise(std::span<const double> smooth, std::span<const double> smoother,
                    double period_points) {
    const std::size_t n = smooth.size();
    const auto windows = static_cast<std::size_t>(
        std::clamp(static_cast<double>(n) / (16.0 * period_points), 1.0, 30.0));
    std::vector<double> deviations;
    for (std::size_t k = 0; k < windows; ++k) {
        std::vector<double> values;
        for (std::size_t i = k * n / windows; i < (k + 1) * n / windows; ++i) {
            values.push_back(smooth[i] - smoother[i]);
        }
        deviations.push_back(deviation_about_median(std::move(values)));
    }
    std::sort(deviations.begin(), deviations.end());
    return deviations[deviations.size() / 3];
}

/// The width at half of the rise from the higher valley; 0 where it is no clear peak of its own.
double clear_width(std::span<const double> x, std::span<const double> values,
                   const Maximum &maximum) {
    const double before = values[maximum.top] - values[maximum.valley_before];
    const double after = values[maximum.top] - values[maximum.valley_after];
    const auto [less, more] = std::minmax(before, after);
    if (less < kEvenSides * more) {
        return 0.0;
    }
    const double level = values[maximum.top] - 0.5 * less;
    return fall_to(x, values, level, maximum.top, maximum.valley_after).x -
           fall_to(x, values, level, maximum.top, maximum.valley_before).x;
}

bool is_known(const std::vector<ClearPeak> &peaks, double at, double width) {
    return std::any_of(peaks.begin(), peaks.end(), [&](const ClearPeak &peak) {
        return std::abs(peak.x - at) < std::max(peak.width, width) && width < 3.0 * peak.width;
    });
}

} // namespace

Scales find_scales(std::span<const double> x, std::span<const double> y) {
    const auto n = static_cast<double>(x.size());
    const double step = mean_step(x);
    const double span = x.back() - x.front();
    const auto [low, high] = std::minmax_element(y.begin(), y.end());
    const double floor = kRangeFloor * (*high - *low);
    std::vector<ClearPeak> peaks;
    std::vector<double> smooth = PenalisedSmoother(x, kFirstPeriod * step).smooth(y);
    for (double period = kFirstPeriod; period * step < span * kDriftShare; period *= 2.0) {
        // Four times the period of this round is the period of the round after the next.
        const auto smoother = PenalisedSmoother(x, 4.0 * period * step).smooth(y);
        const double noise = window_noise(smooth, smoother, std::min(period, n));
        const double least = std::max(kClearDeviations * noise, floor);
        for (const Maximum &maximum : prominent_maxima(smooth, {least, 0.0})) {
            const double width = clear_width(x, smooth, maximum);
            if (width > kOwnPeriod * period * step && width < kDriftShare * span &&
                !is_known(peaks, x[maximum.top], width)) {
                peaks.push_back({x[maximum.top], width});
            }
        }
        smooth = PenalisedSmoother(x, 2.0 * period * step).smooth(y);
    }
    if (peaks.empty()) {
        const double narrowest = std::max(kUnseenPoints * step, kUnseenShare * span);
        return {.narrowest = narrowest, .widest = kUnseenRatio * narrowest, .seen = false};
    }
    std::sort(peaks.begin(), peaks.end(),
              [](const ClearPeak &a, const ClearPeak &b) { return a.width < b.width; });
    return {
        .narrowest = peaks[peaks.size() / 10].width, .widest = peaks.back().width, .seen = true};
}

} // namespace cospot::signal
