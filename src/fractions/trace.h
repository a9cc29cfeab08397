#pragma once

#include "fractions/fraction.h"

#include <cstddef>
#include <vector>

namespace cospot::fractions {

/// A reading of a detector behind the column.
struct TracePoint {
    double volume_ml = 0.0; ///< eluted since the first fraction began
    double signal = 0.0;
};

/// The mean signal of each fraction of `fraction_ml` mL; fraction 1 ends there, and a point on an
/// end belongs to the fraction that it ends. Fractions without a point are left out. Throws
/// InputError unless `fraction_ml` is above 0.
[[nodiscard]] std::vector<Fraction> fractions_of_trace(const std::vector<TracePoint> &points,
                                                       double fraction_ml);

/// Signal at or below this counts as nothing where the user gives no threshold, as a share of the
/// largest signal (common practice, no source).
inline constexpr double kThresholdShare = 0.02;

/// Two maxima are two components where the signal (above the threshold) between them falls below
/// this share of the smaller one (common practice, no source).
inline constexpr double kValleyShare = 0.5;

/// A maximum that is not split off but stands out by more than this share of its height is a
/// shoulder (common practice, no source).
inline constexpr double kShoulderShare = 0.1;

/// The bands of a trace, and what it leaves open.
struct TraceBands {
    ColumnRun run;
    std::vector<int> shoulders; ///< fractions with a maximum that was not split off
};

/// Finds bands in the signals of fractions (each must have one): fractions above `threshold` that
/// follow each other, split at deep valleys. Intensities are signals above the threshold. A trace
/// cannot tell how much of which component a fraction holds: bands that a valley parts are taken to
/// reach towards each other until a Gaussian band, as wide at half height as theirs on that side,
/// is down to `kThresholdShare` of its height, and at least to the valley; fractions within the
/// reach of both hold both, each with the whole signal.
[[nodiscard]] TraceBands find_bands(std::vector<Fraction> fractions, double threshold);

} // namespace cospot::fractions
