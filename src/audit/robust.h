#pragma once

#include "shared/robust.h"

#include <vector>

namespace cospot {

/// 1.4826 times the median absolute value: for normally distributed deviations from a centre this
/// estimates their standard deviation, and half of them may be arbitrarily wrong (hampel1974, from
/// memory). Errors as `median`.
[[nodiscard]] double robust_deviation(std::vector<double> deviations);

/// Above this a robust score (deviation over robust standard deviation) is an outlier
/// (iglewicz1993, from memory).
inline constexpr double kOutlyingScore = 3.5;

} // namespace cospot
