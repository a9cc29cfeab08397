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
constexpr double kMostPoints = 8.0;  ///< of a period; longer ones are looked at in fewer points
constexpr double kClearDeviations = 12.0;
constexpr double kNoiseBand = 8.0;    ///< periods of noise, up to how many times the first
constexpr double kRangeFloor = 0.005; ///< of the range of the trace: no noise to go by
constexpr double kEvenSides = 0.6;    ///< least ratio of the rises from both valleys
constexpr double kDriftShare = 1.0 / 8.0;
constexpr double kDriftRatio = 3.0; ///< what is so many times as wide as the median is drift
constexpr double kOwnPeriod = 0.7;  ///< least width over the period that it was found with
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
        return std::abs(peak.x - at) < std::max(peak.width, width);
    });
}

/// A trace, or the means of neighbouring points of one.
struct Thinned {
    std::vector<double> x, y;
};

Thinned thinned(const Thinned &trace) {
    Thinned half;
    for (std::size_t i = 0; i + 1 < trace.x.size(); i += 2) {
        half.x.push_back(0.5 * (trace.x[i] + trace.x[i + 1]));
        half.y.push_back(0.5 * (trace.y[i] + trace.y[i + 1]));
    }
    return half;
}

} // namespace

Scales find_scales(std::span<const double> x, std::span<const double> y) {
    const double step = mean_step(x);
    const double span = x.back() - x.front();
    const auto [low, high] = std::minmax_element(y.begin(), y.end());
    const double floor = kRangeFloor * (*high - *low);
    Thinned trace{{x.begin(), x.end()}, {y.begin(), y.end()}};
    std::vector<ClearPeak> peaks;
    double points = kFirstPeriod; // in points of the thinned trace
    for (double period = points * step; period < span * kDriftShare; period *= 2.0) {
        const auto smooth = PenalisedSmoother(trace.x, period).smooth(trace.y);
        const auto smoother = PenalisedSmoother(trace.x, kNoiseBand * period).smooth(trace.y);
        const double least =
            std::max(kClearDeviations * window_noise(smooth, smoother, points), floor);
        for (const Maximum &maximum : prominent_maxima(smooth, {least, 0.0})) {
            const double width = clear_width(trace.x, smooth, maximum);
            const double at = trace.x[maximum.top];
            if (width > kOwnPeriod * period && width < kDriftShare * span &&
                !is_known(peaks, at, width)) {
                peaks.push_back({at, width});
            }
        }
        points *= 2.0;
        if (points > kMostPoints) {
            trace = thinned(trace);
            points *= 0.5;
        }
    }
    if (peaks.empty()) {
        const double narrowest = std::max(kUnseenPoints * step, kUnseenShare * span);
        return {.narrowest = narrowest, .widest = kUnseenRatio * narrowest, .seen = false};
    }
    std::sort(peaks.begin(), peaks.end(),
              [](const ClearPeak &a, const ClearPeak &b) { return a.width < b.width; });
    const double most = kDriftRatio * peaks[peaks.size() / 2].width;
    const auto drift =
        std::upper_bound(peaks.begin(), peaks.end(), most,
                         [](double width, const ClearPeak &peak) { return width < peak.width; });
    return {.narrowest = peaks[peaks.size() / 10].width,
            .widest = std::prev(drift)->width,
            .seen = true};
}

} // namespace cospot::signal
