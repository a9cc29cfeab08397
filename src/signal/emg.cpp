#include "signal/emg.h"

#include "shared/bisection.h"

#include <cmath>
#include <numbers>

namespace cospot::signal {

namespace {

constexpr int kHalvings = 80;
/// Below this share of sigma a decay changes nothing that a double shows.
constexpr double kNoDecay = 1e-9;

double gaussian_at(const ExponentialGaussian &peak, double x) {
    const double u = (x - peak.mean) / peak.sigma;
    return peak.area / (peak.sigma * std::sqrt(2.0 * std::numbers::pi)) * std::exp(-0.5 * u * u);
}

} // namespace

double scaled_erfc(double z) {
    if (z < 25.0) {
        return std::exp(z * z) * std::erfc(z);
    }
    const double r = 1.0 / (z * z); // asymptotic series
    return (1.0 - r * (0.5 - r * (0.75 - r * (1.875 - r * 6.5625)))) /
           (z * std::sqrt(std::numbers::pi));
}

double height_at(const ExponentialGaussian &peak, double x) {
    if (peak.tau < kNoDecay * peak.sigma) {
        return gaussian_at(peak, x);
    }
    const double ratio = peak.sigma / peak.tau;
    const double u = (x - peak.mean) / peak.sigma;
    const double z = (ratio - u) / std::numbers::sqrt2;
    if (z < 0.0) {
        return peak.area / (2.0 * peak.tau) * std::exp(0.5 * ratio * ratio - ratio * u) *
               std::erfc(z);
    }
    return gaussian_at(peak, x) * ratio * std::sqrt(std::numbers::pi / 2.0) * scaled_erfc(z);
}

double slope_at(const ExponentialGaussian &peak, double x) {
    const double gaussian = gaussian_at(peak, x);
    if (peak.tau < 1e-5 * peak.sigma) { // the difference below would lose its digits
        return -(x - peak.mean) / (peak.sigma * peak.sigma) * gaussian;
    }
    return (gaussian - height_at(peak, x)) / peak.tau;
}

double apex_of(const ExponentialGaussian &peak) {
    return bisected(peak.mean, peak.mean + peak.tau, kHalvings,
                    [&](double x) { return gaussian_at(peak, x) > height_at(peak, x); });
}

Crossings crossings_of(const ExponentialGaussian &peak, double share) {
    const double apex = apex_of(peak);
    const double level = share * height_at(peak, apex);
    const double reach = std::sqrt(-2.0 * std::log(share));
    const double before = apex - 2.0 * reach * peak.sigma - peak.tau;
    double after = apex + reach * peak.sigma;
    while (height_at(peak, after) > level) {
        after += peak.sigma + peak.tau;
    }
    return {bisected(before, apex, kHalvings, [&](double x) { return height_at(peak, x) < level; }),
            bisected(apex, after, kHalvings, [&](double x) { return height_at(peak, x) > level; })};
}

double half_width_of(const ExponentialGaussian &peak) {
    const Crossings half = crossings_of(peak, 0.5);
    return half.after - half.before;
}

} // namespace cospot::signal
