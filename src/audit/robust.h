#pragma once

#include <vector>

namespace cospot {

/// The median; the mean of the two middle values where their number is even. Throws
/// std::invalid_argument when there are none.
[[nodiscard]] double median(std::vector<double> values);

/// 1.4826 times the median absolute value: for normally distributed deviations from a centre this
/// estimates their standard deviation, and half of them may be arbitrarily wrong (F. R. Hampel,
/// J. Am. Stat. Assoc. 1974, 69, 383; from memory).
[[nodiscard]] double robust_deviation(std::vector<double> deviations);

/// Above this a robust score (deviation over robust standard deviation) is an outlier: B. Iglewicz
/// and D. C. Hoaglin, How to Detect and Handle Outliers, ASQC Quality Press 1993 (from memory).
inline constexpr double kOutlyingScore = 3.5;

} // namespace cospot
