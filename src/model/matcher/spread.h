#pragma once

#include "shared/quantity.h"

#include <vector>

namespace cospot::matcher {

/// Scatter of one compound's values about their mean: `variance` with `freedom` degrees of freedom.
struct SampleVariance {
    double variance = 0.0;
    double freedom = 0.0;
};

/// How widely replicates scatter on a system, as a scaled inverse chi-squared prior for the
/// variance of a compound: `variance` is its typical value, `freedom` says how alike compounds are.
struct SpreadPrior {
    double variance = 0.0;
    double freedom = 0.0;
    double observed_freedom = 0.0; ///< degrees of freedom that the library's own replicates gave
    double assumed = 0.0;          ///< `assumed_spread` of the system, model scale

    /// The spread is an assumption of the program, not seen in the library.
    [[nodiscard]] bool is_assumed() const noexcept { return observed_freedom <= 0.0; }
};

/// How long a run takes where nobody knows.
inline constexpr double kUsualRunMin = 10.0;

/// Spread between runs that is assumed where a library holds no replicates, on the model scale;
/// `longest_min` is the time of the last peak of a run, which matters to t_R. MODEL.md, section 1,
/// says where the figures are from.
[[nodiscard]] double assumed_spread(Technique technique, Quantity quantity,
                                    double longest_min = kUsualRunMin);

/// Readings of one run are assumed to scatter by this share of it.
inline constexpr double kShareWithinRun = 1.0 / 3.0;

/// Fits the prior to the variances of the compounds, on the model scale like `assumed`, the assumed
/// spread. A compound may hold a blunder, a mislabelled or mistyped value, that says nothing about
/// the spread. With few replicates the assumed spread counts as 4 degrees of freedom and all is
/// summed over a grid; from five compounds on it is the moments of the logarithms (empirical Bayes:
/// smyth2004, section 6.2, from memory), each compound weighing its probability to hold no blunder.
[[nodiscard]] SpreadPrior fit_spread(double assumed, const std::vector<SampleVariance> &samples);

/// Probability that the values of a compound hold a blunder, 0 to 1; 0 for less than two values.
[[nodiscard]] double blunder_probability(const SpreadPrior &prior, const SampleVariance &own);

/// The compound's own variance and the prior's, weighted with their degrees of freedom.
[[nodiscard]] SampleVariance posterior_variance(const SpreadPrior &prior,
                                                const SampleVariance &own);

} // namespace cospot::matcher
