#pragma once

#include "signal/peak_measures.h"

#include <span>
#include <vector>

namespace cospot::signal {

/// The peaks of `smoothed`, which lies on a baseline of zero: maxima that stand above it and above
/// the valleys beside them by `threshold` deviations, and shoulders. A shoulder is a second place
/// within a peak where the signal bends downwards: more than noise does (the second derivative
/// where points are `free`), and by a share of what the peak itself does there, in bend and in
/// height: the floor without which ripples and smoothing make some. A peak ends where the signal
/// reaches the baseline, at the valley to its neighbour, or, from a shoulder, where it bends
/// upwards most: there the area is parted by a perpendicular.
[[nodiscard]] std::vector<PeakPlace> find_places(std::span<const double> x,
                                                 std::span<const double> smoothed,
                                                 std::span<const double> free, double deviation,
                                                 const UsedSettings &used, bool with_shoulders);

inline constexpr double kMostReach = 8.0; ///< of a peak to each side, in half widths
/// Peak to valley from which a valley is as low as a baseline.
inline constexpr double kBaselineValley = 100.0;

struct Stretch {
    std::size_t first = 0;
    std::size_t last = 0;
};

/// The points around `at` that lie below `level`, as `at` does.
[[nodiscard]] Stretch below(std::span<const double> values, std::size_t at, double level);

/// 0 within the peaks and half a narrowest width around them, but for the lowest points of valleys
/// as deep as a baseline; elsewhere, and there, 1.
[[nodiscard]] std::vector<double> free_points(std::span<const double> x,
                                              std::span<const double> smoothed,
                                              const std::vector<PeakPlace> &places,
                                              double narrowest);

/// Sets `level` to 0 where the signal lies far below the baseline, and half a narrowest width
/// around that; whether anything was set.
bool leave_dips_out(std::span<const double> x, std::span<const double> recorded,
                    std::span<const double> smoothed, double deviation, double narrowest,
                    std::vector<double> &level);

/// How wide peaks are at each point: the half widths of the peaks (shoulders left out), from each
/// to the next along a line, and no further than from the narrowest to the widest.
[[nodiscard]] std::vector<double> local_half_widths(std::span<const double> x,
                                                    std::span<const double> smoothed,
                                                    const std::vector<PeakPlace> &places,
                                                    const UsedSettings &used);

} // namespace cospot::signal
