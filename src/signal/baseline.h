#pragma once

#include <span>
#include <vector>

namespace cospot::signal {

/// Baseline by asymmetrically reweighted penalised least squares (arPLS: baek2015, from memory):
/// a smooth curve is drawn again and again, each time with weights
///
///     w = 1 / (1 + exp(2 (d - (2 s - m)) / s))
///
/// d being what the signal lies above the last curve, m and s mean and deviation of the d below 0.
/// Peaks so lose all weight, noise keeps it. Differs from the paper in two things: dips far below
/// the curve lose their weight as well, once the curve stands; and points are drawn together to
/// bins of a quarter of `narrowest`, which lose nothing of so smooth a curve, keep the equations
/// well conditioned and the time short.
/// `period` (of the waves of which half goes into the baseline, see penalised_smoother.h) is best
/// 15 to 30 times the widest half width; it, `narrowest` and `x` have one unit. Uneven axes are
/// taken as they are. The trace must be as `require_trace` wants it, with 3 points at least.
[[nodiscard]] std::vector<double> arpls_baseline(std::span<const double> x,
                                                 std::span<const double> y, double period,
                                                 double narrowest);

/// The baseline through the points of `free` (0 or 1 for each point) alone, which noise draws to no
/// side, once it is known where the peaks are. `periods` has one for each point: early peaks are
/// narrow, and drift among them may be fast. Where hardly a point is free, `fallback` is kept.
[[nodiscard]] std::vector<double>
baseline_between_peaks(std::span<const double> x, std::span<const double> y,
                       std::span<const double> free, std::span<const double> periods,
                       double narrowest, std::vector<double> fallback);

} // namespace cospot::signal
