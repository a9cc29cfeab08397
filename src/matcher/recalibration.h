#pragma once

#include "matcher/ranking.h"

#include <cstddef>
#include <limits>
#include <span>
#include <vector>

namespace cospot::matcher {

/// A monotone correction of stated probabilities, learned from questions whose answer was known:
/// odds are raised to a power, and those of `unlisted` multiplied by a factor.
/// Source: temperature scaling, C. Guo, G. Pleiss, Y. Sun, K. Q. Weinberger, ICML 2017, with a bias
/// for `unlisted` (from memory).
struct Recalibration {
    double exponent = 1.0;        ///< above 1: the library was more often right than it said
    double unlisted_factor = 1.0; ///< above 1: `unlisted` was right more often than it said
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

/// Probability that a candidate set has gathered before the truth enters it; 1 where it never does.
/// Of equals the set takes `unlisted` first and candidates in the order of the ranking.
[[nodiscard]] double level_before_truth(const Ranking &ranking, std::size_t truth);

} // namespace cospot::matcher
