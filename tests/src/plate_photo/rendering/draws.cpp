#include "draws.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace cospot::rendering {
namespace {

double lattice_value(std::int64_t x, std::int64_t y, std::uint32_t seed) {
    auto h = static_cast<std::uint64_t>(x) * 0x9E3779B97F4A7C15U ^
             static_cast<std::uint64_t>(y) * 0xC2B2AE3D27D4EB4FU ^ seed * 0x165667B19E3779F9U;
    h = (h ^ (h >> 29U)) * 0xBF58476D1CE4E5B9U;
    h ^= h >> 32U;
    return static_cast<double>(h & 0xFFFFFFU) / 8388607.5 - 1.0;
}

} // namespace

double Draws::evenly_in_logarithm(double least, double most) {
    return least * std::pow(most / least, unit());
}

double Draws::normal() {
    const double radius = std::sqrt(-2.0 * std::log(1.0 - unit()));
    return radius * std::cos(2.0 * std::numbers::pi * unit());
}

std::size_t Draws::index(std::size_t count) {
    return std::min(count - 1, static_cast<std::size_t>(unit() * static_cast<double>(count)));
}

double smooth_noise(double x, double y, std::uint32_t seed) {
    const double left = std::floor(x);
    const double low = std::floor(y);
    const double u = smooth_step(0.0, 1.0, x - left);
    const double v = smooth_step(0.0, 1.0, y - low);
    const auto i = static_cast<std::int64_t>(left);
    const auto j = static_cast<std::int64_t>(low);
    const double below = std::lerp(lattice_value(i, j, seed), lattice_value(i + 1, j, seed), u);
    const double above =
        std::lerp(lattice_value(i, j + 1, seed), lattice_value(i + 1, j + 1, seed), u);
    return std::lerp(below, above, v);
}

double fractal_noise(double x, double y, std::uint32_t seed, int octaves) {
    double sum = 0.0;
    double strength = 0.5;
    for (int octave = 0; octave < octaves; ++octave) {
        sum += strength * smooth_noise(x, y, seed + static_cast<std::uint32_t>(octave));
        x = 2.0 * x + 17.3;
        y = 2.0 * y - 9.1;
        strength *= 0.5;
    }
    return sum;
}

double smooth_step(double from, double to, double x) {
    const double t = std::clamp((x - from) / (to - from), 0.0, 1.0);
    return t * t * (3.0 - 2.0 * t);
}

} // namespace cospot::rendering
