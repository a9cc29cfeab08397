#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace cospot::signal {

/// The noise of a trace as the instrument filtered it, read where no peak is. Neighbouring points
/// share noise: thresholds for independent points took 94 peaks of a real trace for 8. So the
/// deviation of the smoothed signal is measured as it is, and what noise does to a sum of points is
/// told from how points some way apart go together.
struct Noise {
    double deviation = 0.0; ///< of the smoothed signal; from the median distance from zero
    double recorded = 0.0;  ///< of the signal as it was recorded; in the same way
    /// Of means over `bin` (in units of the axis) that many bins apart, from 0 on.
    std::vector<double> covariance;
    double bin = 0.0;
};

/// Reads the noise. `recorded` and `smoothed` lie on a baseline of zero; `free` is 0 where a peak
/// is and 1 elsewhere. Where fewer than 20 points are free, the quietest fifth of the trace counts.
[[nodiscard]] Noise read_noise(std::span<const double> x, std::span<const double> recorded,
                               std::span<const double> smoothed, std::span<const double> free,
                               double narrowest, double widest);

/// Deviation of the smoothed signal alone, for the search; as in `read_noise`.
[[nodiscard]] double free_deviation(std::span<const double> smoothed, std::span<const double> free);

/// Variance of the sum of `factors` times the noise at the points `x` of the trace.
[[nodiscard]] double variance_of_sum(const Noise &noise, std::span<const double> x,
                                     std::span<const double> factors);

/// Range h of the recorded noise, as pharmacopoeias measure it (pheur2246: over 20 half widths, of
/// a blank; at least 5).
struct NoiseRange {
    double range = 0.0;
    double half_widths = 0.0; ///< over how many it was read
};

/// The range over the free points nearest to `at`, as far as 20 half widths go, on both sides;
/// nothing where fewer than 5 half widths are free, or fewer than 5 points.
[[nodiscard]] std::optional<NoiseRange> noise_range(std::span<const double> x,
                                                    std::span<const double> recorded,
                                                    std::span<const double> free, double at,
                                                    double half_width);

} // namespace cospot::signal
