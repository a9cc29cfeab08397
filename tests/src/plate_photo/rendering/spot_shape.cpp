#include "spot_shape.h"

#include <cmath>
#include <numbers>

namespace cospot::rendering {
namespace {

constexpr double kStep = 0.01; ///< mm, of what is found by going along the axis

/// Convolution of a Gaussian at 0 with an exponential that goes down, but for a constant factor
/// (Foley and Dorsey 1984, J. Chromatogr. Sci. 22, 40, turned around).
double smeared(double v, double sigma, double tau) {
    const double z = (v / sigma + sigma / tau) / std::numbers::sqrt2;
    const double exponent = 0.5 * std::pow(sigma / tau, 2) + v / tau;
    if (z > 6.0) { // erfc(z) is exp(-z^2) / (z sqrt(pi)) there, and the product stays finite
        return std::exp(exponent - z * z) / (z * std::sqrt(std::numbers::pi));
    }
    return std::exp(exponent) * std::erfc(z);
}

double along(const SpotShape &shape, double v) {
    const double gauss = std::exp(-0.5 * std::pow(v / shape.along_mm, 2));
    switch (shape.tail) {
    case Tail::none:
        return gauss;
    case Tail::smeared:
        return smeared(v + shape.peak_offset, shape.along_mm, shape.tail_mm) / shape.peak_value;
    case Tail::comet:
        return v >= 0.0 ? gauss : 0.6 * gauss + 0.4 * std::exp(v / shape.tail_mm);
    }
    return 0.0;
}

} // namespace

void settle(SpotShape &shape) {
    if (shape.tail != Tail::smeared) {
        return;
    }
    double best = 0.0;
    for (double v = -4.0 * shape.along_mm; v <= shape.along_mm; v += 0.1 * kStep) {
        const double value = smeared(v, shape.along_mm, shape.tail_mm);
        if (value > best) {
            best = value;
            shape.peak_offset = v;
        }
    }
    shape.peak_value = best;
}

double amount(const SpotShape &shape, double x_mm, double y_mm) {
    const double u = (x_mm - shape.x_mm) / shape.across_mm;
    const double v = y_mm - shape.y_mm + shape.bend * std::pow(x_mm - shape.x_mm, 2);
    if (shape.tail != Tail::none) {
        return std::exp(-0.5 * u * u) * along(shape, v);
    }
    const double radius = std::hypot(u, v / shape.along_mm);
    return std::exp(-0.5 * std::pow(radius, shape.flatness));
}

Extent extent(const SpotShape &shape, double share) {
    Extent found{shape.y_mm, shape.y_mm};
    while (amount(shape, shape.x_mm, found.low_mm) > share) {
        found.low_mm -= kStep;
    }
    while (amount(shape, shape.x_mm, found.high_mm) > share) {
        found.high_mm += kStep;
    }
    return found;
}

double centre_mm(const SpotShape &shape) {
    const Extent all = extent(shape, 0.005);
    double sum = 0.0;
    double weight = 0.0;
    for (double y = all.low_mm; y <= all.high_mm; y += kStep) {
        const double value = amount(shape, shape.x_mm, y);
        sum += value * y;
        weight += value;
    }
    return sum / weight;
}

double half_width_mm(const SpotShape &shape, double share) {
    double x = 0.0;
    while (amount(shape, shape.x_mm + x, shape.y_mm - shape.bend * x * x) > share) {
        x += kStep;
    }
    return x;
}

} // namespace cospot::rendering
