#pragma once

#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <random>

namespace cospot::rendering {

/// Random draws that are the same with every standard library. Each part of a picture draws from a
/// stream of its own, so that a change of one leaves the others as they were.
class Draws {
public:
    Draws(std::uint64_t seed, std::uint64_t stream)
        : engine_(seed * 0x9E3779B97F4A7C15U + stream * 0xD1B54A32D192ED03U) {}

    double uniform(double least, double most) { return least + (most - least) * unit(); }
    double evenly_in_logarithm(double least, double most);
    double normal(); ///< mean 0, deviation 1
    bool chance(double probability) { return unit() < probability; }
    std::size_t index(std::size_t count); ///< 0 to count - 1
    std::uint32_t bits() { return static_cast<std::uint32_t>(engine_() >> 32U); }
    template <typename T> T one_of(std::initializer_list<T> values) {
        return *(values.begin() + index(values.size()));
    }

private:
    double unit() { return static_cast<double>(engine_() >> 11U) * 0x1.0p-53; }
    std::mt19937_64 engine_;
};

/// Smooth noise over the plane with bumps of size 1, from -1 to 1.
[[nodiscard]] double smooth_noise(double x, double y, std::uint32_t seed);

/// Sum of so many octaves of smooth noise, each half as large and half as strong as the one before.
[[nodiscard]] double fractal_noise(double x, double y, std::uint32_t seed, int octaves);

/// 0 below `from`, 1 above `to`, a smooth rise between them (a cubic).
[[nodiscard]] double smooth_step(double from, double to, double x);

} // namespace cospot::rendering
