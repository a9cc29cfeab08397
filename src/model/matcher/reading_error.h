#pragma once

#include "model/matcher/retention_scale.h"
#include "shared/quantity.h"

namespace cospot::matcher {

/// Degrees of freedom of the error of a reading: now and then a spot or a peak is misread (common
/// practice, no source).
inline constexpr double kReadingFreedom = 6.0;

/// A Student t of one reading; infinite freedom is a normal distribution.
struct ReadSpread {
    double scale = 0.0;
    double freedom = 0.0;
};

/// What is read of a place that is spread by `scale` with `freedom`, where the reading has an error
/// of its own: variances add up, and 1 / freedom is the mean of both by their shares of the
/// variance, so that a precise reading has the tails of the place, and a vague one its own whatever
/// the place is (assumed: the tails of a sum lie between those of its parts).
[[nodiscard]] ReadSpread as_read(double scale, double freedom, double error);

/// The standard uncertainty of a value as an error on the model scale, at the value: the same for
/// all that the value may be.
[[nodiscard]] double error_of(Quantity quantity, double value, double uncertainty);

/// Density of misreading by that distance; 0 where there is no error. Error and distance have one
/// unit.
[[nodiscard]] double density_of_misreading(double distance, double error);

/// Probability of misreading upwards by less than a distance; without an error 1 for distances from
/// 0 on, else 0.
[[nodiscard]] double misreads_by_less(double distance, double error);

/// Where a spot is that stays at the start or runs with the front, and where the zone ends in which
/// it is censored; model scale of R_F. `end` must not be `none`.
[[nodiscard]] double place_of(Censoring end);
[[nodiscard]] double edge_of(Censoring end);

/// Probability that a spot at a place on the model scale of R_F is read in the zone of an end.
[[nodiscard]] double read_at(Censoring end, double place, double error);

} // namespace cospot::matcher
