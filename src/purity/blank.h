#pragma once

#include "shared/quantity.h"

#include <optional>
#include <span>
#include <vector>

namespace cospot::purity {

/// A spot or peak as it takes part in the subtraction of a blank.
struct Located {
    double position = 0.0;  ///< time on the scale of the sample's run in min, or another quantity;
                            ///< NaN: nothing is the same as this
    double tolerance = 0.0; ///< within which a peak of the blank is the same, same unit
    std::optional<double> area;
};

/// How far apart two runs may show the same: half the width at half height where it is known, else
/// 0.5 % of the time and at least 0.02 min (common practice, no source).
[[nodiscard]] double time_tolerance_min(double retention_time_min,
                                        std::optional<double> width_half_min);

/// The same for a value of a long table: 0.02 of R_F, 3 index units, 0.5 % of a ratio and at least
/// 0.005 of it (common practice, no source).
[[nodiscard]] double value_tolerance(Quantity quantity, double value);

/// What the blank shows of one feature.
struct BlankMatch {
    /// Area that is left, from 0, where both areas are known.
    std::optional<double> remaining_area;
    bool explains_all = false; ///< nothing of the sample's own is left
};

/// Pairs each feature of the sample with the nearest one of the blank within its tolerance, the
/// closest pairs first, each at most once. A feature of which less than a tenth is left is taken to
/// be the blank's (integration errs by that much; common practice, no source), and so is one whose
/// areas are not known. Both injections are taken to be of the same volume.
[[nodiscard]] std::vector<std::optional<BlankMatch>> subtract_blank(std::span<const Located> sample,
                                                                    std::span<const Located> blank);

} // namespace cospot::purity
