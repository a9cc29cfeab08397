#pragma once

namespace cospot {

/// Logarithm of the constant of Student's t in so many dimensions, lgamma((freedom + dimensions) /
/// 2) - lgamma(freedom / 2) - dimensions / 2 log(freedom pi): of the density at the centre where
/// the scale is 1. `freedom` above 0.
[[nodiscard]] double student_t_constant(double freedom, double dimensions = 1.0);

/// Logarithm of the density of Student's t; `z` in units of its scale.
[[nodiscard]] double log_student_t(double z, double freedom);

/// Probability that Student's t stays below `z`, which may be infinite.
[[nodiscard]] double student_t_below(double z, double freedom);

/// Student's t stays below it with this probability, above 0 and below 1.
[[nodiscard]] double student_t_quantile(double freedom, double probability);

/// |t| stays below it with this probability, above 0 and below 1.
[[nodiscard]] double student_t_reach(double freedom, double probability);

} // namespace cospot
