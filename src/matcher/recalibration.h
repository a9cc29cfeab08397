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
    /// Smallest probability of a member of a candidate set, so that the sets hold the truth with
    /// `kSetCoverage` or more, `kWorthNaming` at most; 0: not learned, sets gather that much.
    double least_in_set = 0.0;
};

/// What candidate sets promise.
inline constexpr double kSetCoverage = 0.95;

/// A candidate that is this probable belongs to the set, whatever coverage could do without it.
inline constexpr double kWorthNaming = 0.05;

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
/// the limit with which candidate sets hold listed compounds often enough (split conformal
/// prediction, V. Vovk, A. Gammerman, G. Shafer, Algorithmic Learning in a Random World, 2005, from
/// memory).
[[nodiscard]] Recalibration fit_recalibration(std::span<const JudgedRanking> judged);

/// The limit of the sets alone: probabilities stay as they were computed.
[[nodiscard]] Recalibration fit_set_limit(std::span<const JudgedRanking> judged);

/// Probability of the truth.
[[nodiscard]] double probability_of_truth(const Ranking &ranking, std::size_t truth);

/// The candidates that may be the truth: of all rules that keep the coverage, leaving out what is
/// less probable than a limit makes the shortest lists (M. Sadinle, J. Lei, L. Wasserman, J. Am.
/// Stat. Assoc. 2019, 114, 223, from memory). The most probable answer always belongs to the set.
[[nodiscard]] CandidateSet candidate_set(const Ranking &ranking,
                                         const Recalibration &recalibration);

} // namespace cospot::matcher
