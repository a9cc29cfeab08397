#pragma once

#include "matcher/ranking.h"

#include <cstddef>
#include <limits>
#include <span>
#include <vector>

namespace cospot::matcher {

/// A monotone correction of stated probabilities, learned from questions whose answer was known:
/// the odds between candidates are raised to a power. Source: temperature scaling, C. Guo, G.
/// Pleiss, Y. Sun, K. Q. Weinberger, ICML 2017 (from memory). The probability of `unlisted` stays:
/// how many features are unlisted is a matter of the sample, and what a library's own compounds
/// teach about it does not hold for others.
struct Recalibration {
    double exponent = 1.0; ///< above 1: the library was more often right than it said
    /// Probability that a candidate set must gather to hold the truth with `kSetCoverage`, see
    /// `candidate_set`.
    double set_level = 0.95;
};

/// What candidate sets promise.
inline constexpr double kSetCoverage = 0.95;

/// Position of the truth where it is `unlisted`.
inline constexpr std::size_t kUnlisted = std::numeric_limits<std::size_t>::max();

/// A ranking whose truth is known.
struct JudgedRanking {
    Ranking ranking;
    std::size_t truth = kUnlisted; ///< compound
};

/// The ranking as the recalibration states it; the order of candidates stays.
[[nodiscard]] Ranking recalibrated(const Ranking &ranking, const Recalibration &recalibration);

/// The correction under which the truth was likeliest, held back by a prior worth 20 rankings, and
/// the level at which candidate sets held the truth often enough (split conformal prediction,
/// V. Vovk, A. Gammerman, G. Shafer, Algorithmic Learning in a Random World, 2005, from memory).
[[nodiscard]] Recalibration fit_recalibration(std::span<const JudgedRanking> judged);

/// Probability of the truth.
[[nodiscard]] double probability_of_truth(const Ranking &ranking, std::size_t truth);

/// Probability that a candidate set has gathered before the truth enters it.
[[nodiscard]] double level_before_truth(const Ranking &ranking, std::size_t truth);

} // namespace cospot::matcher
