#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <vector>

namespace cospot {

/// What a measurement that was not made yet is expected to tell.
struct ExpectedGain {
    double bits = 0.0; ///< by how much the entropy of the identity is expected to fall
    double remaining =
        0.0; ///< how many of the compounds in the 95 % set are expected to stay in it
};

/// What one hypothesis says of an outcome on a continuous scale.
struct Forecast {
    std::vector<double> outcomes; ///< equally likely ones
    std::function<double(double)> log_density;
};

/// Entropy of the probabilities in bits; they need not sum to 1.
[[nodiscard]] double entropy_bits(std::span<const double> probabilities);

/// How many of the hypotheses, but for the last one, which stands for `unlisted`, belong to the
/// shortest list that holds the truth with 0.95.
[[nodiscard]] std::size_t remaining_compounds(std::span<const double> probabilities);

/// The mutual information of identity and outcome (C. E. Shannon, Bell Syst. Tech. J. 1948, 27,
/// 379): for each hypothesis and each of its equally likely outcomes, what Bayes' rule would say
/// then. One forecast a hypothesis, the last one that of `unlisted`; probabilities sum to 1.
[[nodiscard]] ExpectedGain expected_gain(std::span<const double> probabilities,
                                         std::span<const Forecast> forecasts);

/// The same for a measurement with a few outcomes: `likelihoods[h][o]` is the probability of
/// outcome o under hypothesis h, and sums to 1 over o.
[[nodiscard]] ExpectedGain expected_gain(std::span<const double> probabilities,
                                         const std::vector<std::vector<double>> &likelihoods);

} // namespace cospot
