#pragma once

#include "shared/quantity.h"

#include <cstddef>
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

    /// The spread is an assumption of the program, not seen in the library.
    [[nodiscard]] bool is_assumed() const noexcept { return observed_freedom <= 0.0; }
};

/// Spread assumed where a library holds no replicates, on the model scale (common practice, no
/// source): R_F 0.03 in the middle of the plate, k 5 %, RI 3 units, t_R 0.05 min.
[[nodiscard]] double assumed_spread(Quantity quantity);

/// Fits the prior to the variances of the compounds by the moments of their logarithms
/// (empirical Bayes: G. K. Smyth, Stat. Appl. Genet. Mol. Biol. 2004, 3, 3, section 6.2; equations
/// from memory). With few replicates the assumed spread is mixed in with a weight of 4 degrees of
/// freedom. Variances are on the model scale of `quantity`.
[[nodiscard]] SpreadPrior fit_spread(Quantity quantity, const std::vector<SampleVariance> &samples);

/// The compound's own variance and the prior's, weighted with their degrees of freedom.
[[nodiscard]] SampleVariance posterior_variance(const SpreadPrior &prior,
                                                const SampleVariance &own);

} // namespace cospot::matcher
