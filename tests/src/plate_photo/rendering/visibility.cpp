#include "visibility.h"

#include <algorithm>
#include <cmath>

namespace cospot::rendering {
namespace {

constexpr std::array<double, 3> kShareOfPixels{0.25, 0.5, 0.25}; ///< of red, green, blue

/// Integral of the squared amount over the plate, mm2.
double squared_amount_mm2(const SpotShape &shape) {
    constexpr double kStep = 0.1;
    const Extent along = extent(shape, 0.01);
    const double across = half_width_mm(shape, 0.01);
    const double horns = std::abs(shape.bend) * across * across;
    double sum = 0.0;
    for (double y = along.low_mm - horns; y <= along.high_mm + horns; y += kStep) {
        for (double x = shape.x_mm - across; x <= shape.x_mm + across; x += kStep) {
            sum += std::pow(amount(shape, x, y), 2) * kStep * kStep;
        }
    }
    return sum;
}

} // namespace

double visibility(const TrueSpot &spot, Colour layer, double brightest, double pixels_per_mm,
                  const Exposure &exposure) {
    const std::array<double, 3> light{static_cast<double>(layer.r), static_cast<double>(layer.g),
                                      static_cast<double>(layer.b)};
    const double pixels = squared_amount_mm2(spot.shape) * pixels_per_mm * pixels_per_mm;
    const double glow = brightest * spot.contrast / (1.0 - spot.contrast);
    double squares = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
        const double left = std::pow(1.0 - spot.contrast, spot.absorbs[k]);
        const double clean = std::min(1.0, exposure.gain * light[k]);
        const double spotted =
            std::min(1.0, exposure.gain * (light[k] * left + glow * spot.glows[k]));
        const double signal = (spotted - clean) * exposure.full_electrons;
        const double noise = std::max(clean, spotted) * exposure.full_electrons +
                             std::pow(exposure.read_electrons, 2);
        squares += signal * signal / noise * kShareOfPixels[k] * pixels;
    }
    return std::sqrt(squares);
}

} // namespace cospot::rendering
