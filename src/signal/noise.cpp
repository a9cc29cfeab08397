#include "signal/noise.h"

#include "shared/robust.h"
#include "signal/penalised_smoother.h"

#include <algorithm>
#include <cmath>

namespace cospot::signal {

namespace {

constexpr std::size_t kLeastFree = 20;
constexpr double kBinsPerNarrowest = 24.0;
constexpr double kLagsPerWidest = 4.0;
constexpr std::size_t kMostLags = 400;
constexpr double kLeastVarianceShare = 0.05;
constexpr double kRangeHalfWidths = 20.0;
constexpr double kLeastRangeHalfWidths = 5.0;
constexpr std::ptrdiff_t kLeastRangePoints = 5;

std::vector<double> free_values(std::span<const double> values, std::span<const double> free) {
    std::vector<double> result;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (free[i] > 0.0) {
            result.push_back(values[i]);
        }
    }
    return result;
}

/// Means of the free stretches; `weight` is 0 where less than half of a bin is free.
struct FreeBins {
    std::vector<double> mean, weight;
};

FreeBins free_bins(std::span<const double> recorded, std::span<const double> free,
                   std::size_t size) {
    FreeBins bins;
    for (std::size_t begin = 0; begin + size <= recorded.size(); begin += size) {
        double sum = 0.0;
        double count = 0.0;
        for (std::size_t i = begin; i < begin + size; ++i) {
            sum += free[i] * recorded[i];
            count += free[i];
        }
        const bool counts = 2.0 * count >= static_cast<double>(size);
        bins.mean.push_back(counts ? sum / count : 0.0);
        bins.weight.push_back(counts ? 1.0 : 0.0);
    }
    return bins;
}

std::vector<double> covariances(const FreeBins &bins, std::size_t lags) {
    std::vector<double> result;
    for (std::size_t lag = 0; lag < std::min(lags, bins.mean.size()); ++lag) {
        double sum = 0.0;
        double count = 0.0;
        for (std::size_t i = 0; i + lag < bins.mean.size(); ++i) {
            sum += bins.mean[i] * bins.mean[i + lag];
            count += bins.weight[i] * bins.weight[i + lag];
        }
        if (count < static_cast<double>(kLeastFree)) {
            break;
        }
        result.push_back(sum / count);
    }
    return result;
}

} // namespace

double free_deviation(std::span<const double> smoothed, std::span<const double> free) {
    std::vector<double> values = free_values(smoothed, free);
    if (values.size() >= kLeastFree) {
        return deviation_about_zero(std::move(values));
    }
    // A peak everywhere: what lies nearest to the baseline, as if it were the middle fifth of
    // noise.
    constexpr double kQuietShare = 0.2;
    constexpr double kDeviationOfFifth = 1.0 / 0.2533; // normal values below 0.2533 s are a fifth
    std::vector<double> distances(smoothed.begin(), smoothed.end());
    for (double &distance : distances) {
        distance = std::abs(distance);
    }
    const auto nth = distances.begin() + static_cast<std::ptrdiff_t>(
                                             kQuietShare * static_cast<double>(distances.size()));
    std::nth_element(distances.begin(), nth, distances.end());
    return kDeviationOfFifth * *nth;
}

Noise read_noise(std::span<const double> x, std::span<const double> recorded,
                 std::span<const double> smoothed, std::span<const double> free, double narrowest,
                 double widest) {
    Noise noise;
    noise.deviation = free_deviation(smoothed, free);
    noise.recorded = free_deviation(recorded, free);
    const double step = mean_step(x);
    const auto size = static_cast<std::size_t>(std::max(1.0, narrowest / kBinsPerNarrowest / step));
    noise.bin = static_cast<double>(size) * step;
    const auto lags = static_cast<std::size_t>(kLagsPerWidest * widest / noise.bin) + 1;
    noise.covariance = covariances(free_bins(recorded, free, size), std::min(lags, kMostLags));
    if (noise.covariance.empty()) {
        noise.covariance = {noise.recorded * noise.recorded};
    }
    return noise;
}

double variance_of_sum(const Noise &noise, std::span<const double> x,
                       std::span<const double> factors) {
    if (x.empty()) {
        return 0.0;
    }
    std::vector<double> binned(static_cast<std::size_t>((x.back() - x.front()) / noise.bin) + 1,
                               0.0);
    for (std::size_t i = 0; i < x.size(); ++i) {
        binned[static_cast<std::size_t>((x[i] - x.front()) / noise.bin)] += factors[i];
    }
    double own = 0.0;
    double shared = 0.0;
    for (std::size_t i = 0; i < binned.size(); ++i) {
        own += binned[i] * binned[i];
        const std::size_t last = std::min(binned.size(), i + noise.covariance.size());
        for (std::size_t j = i + 1; j < last; ++j) {
            shared += 2.0 * noise.covariance[j - i] * binned[i] * binned[j];
        }
    }
    own *= noise.covariance.front();
    return std::max(own + shared, kLeastVarianceShare * own); // covariances are estimates
}

std::optional<NoiseRange> noise_range(std::span<const double> x, std::span<const double> recorded,
                                      std::span<const double> free, double at, double half_width) {
    const double step = mean_step(x);
    const auto most = static_cast<std::ptrdiff_t>(kRangeHalfWidths * half_width / step);
    std::ptrdiff_t after = std::lower_bound(x.begin(), x.end(), at) - x.begin();
    std::ptrdiff_t before = after - 1;
    const auto n = std::ssize(x);
    std::ptrdiff_t count = 0;
    double low = 0.0;
    double high = 0.0;
    const auto take = [&](std::ptrdiff_t i) {
        const auto place = static_cast<std::size_t>(i);
        if (free[place] > 0.0) {
            low = count == 0 ? recorded[place] : std::min(low, recorded[place]);
            high = count == 0 ? recorded[place] : std::max(high, recorded[place]);
            ++count;
        }
    };
    while (count < most && (before >= 0 || after < n)) {
        if (before >= 0) {
            take(before--);
        }
        if (after < n) {
            take(after++);
        }
    }
    const double half_widths = static_cast<double>(count) * step / half_width;
    if (count < kLeastRangePoints || half_widths < kLeastRangeHalfWidths - 1e-9) {
        return std::nullopt;
    }
    return NoiseRange{.range = high - low, .half_widths = half_widths};
}

} // namespace cospot::signal
