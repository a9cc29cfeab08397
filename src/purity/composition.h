#pragma once

#include <optional>
#include <span>
#include <vector>

namespace cospot::purity {

/// Shares of the sum of areas in per cent, each area divided by its relative response factor first
/// (area normalisation, Ph. Eur. 2.2.46: correction factors are the reciprocals of response
/// factors). They sum to 100. Without factors it is area per cent, which is not mass per cent.
/// Throws std::invalid_argument for negative areas, factors that are not above 0, spans of unequal
/// size, or a sum of 0.
[[nodiscard]] std::vector<double> area_per_cent(std::span<const double> areas,
                                                std::span<const double> response_factors);

/// Relative retention r = (t_R - t_M) / (t_R,main - t_M) (IUPAC 1993, Pure Appl. Chem. 65, 819), or
/// without a hold-up time the unadjusted one, t_R / t_R,main. Times in min. Nothing where the main
/// peak is not retained.
[[nodiscard]] std::optional<double> relative_retention(double retention_time_min, double main_min,
                                                       std::optional<double> hold_up_min);

} // namespace cospot::purity
