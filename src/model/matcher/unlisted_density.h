#pragma once

#include "model/matcher/candidate_density.h"
#include "shared/quantity.h"

#include <vector>

namespace cospot::matcher {

/// What a compound that the library does not hold would show on a system: a kernel density over the
/// library's compounds, widened, mixed with an even density over the range that the technique
/// shows. Its kernels are never narrower than 3 times the spread of replicates.
struct UnlistedDensity {
    /// Means of the compounds, model scale, ascending; of many compounds those of a twentieth of a
    /// bandwidth share one centre, which changes densities by less than a thousandth.
    std::vector<double> centres;
    std::vector<double> weights; ///< of the centres, in compounds
    double bandwidth = 0.0;      ///< standard deviation of a kernel, model scale
    double low = 0.0;            ///< ends of the even part, model scale
    double high = 1.0;
    double at_start = 0.0; ///< probability of an R_F censored at the start
    double at_front = 0.0; ///< probability of an R_F censored at the front
};

[[nodiscard]] UnlistedDensity fit_unlisted(Quantity quantity,
                                           const std::vector<CandidateDensity> &candidates,
                                           double replicate_spread);

/// Natural logarithm of the density on the model scale, or of the probability where the observation
/// is censored: comparable with `log_density` of a candidate. `uncertainty` is the reading's own
/// standard uncertainty in the unit of the quantity; it widens this density as it widens those of
/// the candidates.
[[nodiscard]] double log_density(const UnlistedDensity &unlisted, Quantity quantity, double value,
                                 double uncertainty);

} // namespace cospot::matcher
