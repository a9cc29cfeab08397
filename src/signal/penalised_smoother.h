#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace cospot::signal {

/// Throws InputError unless `x` rises from point to point, both have as many values, at least
/// `least`, and all are finite: "found ... at point 12 of the trace".
void require_trace(std::span<const double> x, std::span<const double> y, std::size_t least);

/// Mean distance of neighbouring points.
[[nodiscard]] double mean_step(std::span<const double> x);

/// Penalised least squares (whittaker1923, eilers2003, from memory): the curve z with the least
///
///     sum m_i w_i (y_i - z_i)^2 + lambda sum q_i (D z)_i^2,   lambda = (period / 2 pi)^4
///
/// Of a wave of this period one half passes, of longer ones more: 1 / (1 + (period / wave)^4).
/// Uneven axes need no resampling, which would change the noise: D is the second divided
/// difference, and m and q are the stretches of axis that each point and each difference stand for,
/// so that the sums are integrals. Of an even axis m = q = 1 and D is the second difference.
/// The equations have five diagonals; a solution takes a time that rises with the points.
class PenalisedSmoother {
public:
    /// `x` rises and has at least 3 points (std::invalid_argument); `period` is in its units.
    PenalisedSmoother(std::span<const double> x, double period);
    /// The same with a period for each point.
    PenalisedSmoother(std::span<const double> x, std::span<const double> periods);

    /// The curve for values and weights (0 to 1; at least two above 0, lest it is undetermined).
    [[nodiscard]] std::vector<double> smooth(std::span<const double> y,
                                             std::span<const double> weights);
    [[nodiscard]] std::vector<double> smooth(std::span<const double> y); ///< all weights 1

private:
    std::vector<double> stretch_;                 // m
    std::vector<double> diagonal_, off1_, off2_;  // of the penalty
    std::vector<double> pivot_, lower1_, lower2_; // of the factors, kept to save allocations
};

} // namespace cospot::signal
