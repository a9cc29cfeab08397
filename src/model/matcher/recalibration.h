#pragma once

#include "model/matcher/ranking.h"

#include <cstddef>
#include <limits>
#include <span>
#include <vector>

namespace cospot::matcher {

/// What is corrected of the candidates whose expected values have one basis.
struct BasisCorrection {
    double exponent = 1.0; ///< of the odds among them; above 1: more often right than stated
    /// Smallest probability of a member of a candidate set, so that the sets hold a truth of this
    /// basis with `kSetCoverage` or more, `kWorthNaming` at most; 0: not learned, sets gather that
    /// much.
    double least_in_set = 0.0;
};

/// A monotone correction of stated probabilities, learned from questions whose answer was known.
/// The odds among the candidates of one basis are raised to a power, by which what they have
/// together stays (temperature scaling: guo2017, from memory): measured and transferred values are
/// wrong in ways of their own, and what is learned of one does not touch the other. The odds of
/// `unlisted` are multiplied by a factor, whatever was believed before measuring: how many features
/// are unlisted is a matter of the sample, but how often a compound that is not listed lies where a
/// listed one is expected is a matter of the library.
struct Recalibration {
    BasisCorrection measured{};
    BasisCorrection transferred{};
    double unlisted_offset = 0.0;       ///< natural logarithm of that factor
    double least_unlisted_in_set = 0.0; ///< as `least_in_set`, of the answer `unlisted`
};

/// The correction of one basis. Nothing is learned of values predicted or seen beside a standard.
[[nodiscard]] const BasisCorrection &correction_of(const Recalibration &recalibration, Basis basis);

/// What candidate sets promise.
inline constexpr double kSetCoverage = 0.95;

/// A candidate that is this probable belongs to the set, whatever coverage could do without it.
inline constexpr double kWorthNaming = 0.05;

/// Position of the truth where it is `unlisted`.
inline constexpr std::size_t kUnlisted = std::numeric_limits<std::size_t>::max();

/// With fewer questions of one kind nothing is learned from them.
inline constexpr std::size_t kFewestOfAKind = 20;

/// A ranking whose truth is known. Its bases must have been noted.
struct JudgedRanking {
    Ranking ranking;
    std::size_t truth = kUnlisted; ///< compound
    Basis basis = Basis::measured; ///< of the truth, where it is listed
};

/// The ranking as the recalibration states it; the order of candidates of one basis stays.
[[nodiscard]] Ranking recalibrated(const Ranking &ranking, const Recalibration &recalibration);

/// The exponents and the offset under which the truth was likeliest, each held back by a prior
/// worth 20 rankings. `prior_unlisted` is the probability of unlisted with which the questions were
/// asked: absent compounds are weighted so that they make up that share, else their number would
/// be learned. No limits of sets.
[[nodiscard]] Recalibration fit_odds(std::span<const JudgedRanking> judged,
                                     double prior_unlisted = Prior{}.unlisted);

/// The same correction with the limits with which candidate sets hold truths of each basis, and
/// `unlisted`, often enough (split conformal prediction by kind: vovk2005, from memory). A basis
/// with few truths has the limit of all listed compounds, or a lower one that holds all of its own.
/// `judged` as computed.
[[nodiscard]] Recalibration with_set_limits(Recalibration recalibration,
                                            std::span<const JudgedRanking> judged);

/// Probability of the truth.
[[nodiscard]] double probability_of_truth(const Ranking &ranking, std::size_t truth);

/// Whether the truth is listed, with an expected value of this basis.
[[nodiscard]] inline bool is_of_basis(const JudgedRanking &judged, Basis basis) {
    return judged.truth != kUnlisted && judged.basis == basis;
}

/// What may be the truth.
struct ChosenSet {
    std::vector<std::size_t> candidates; ///< positions in the ranking, ascending
    bool unlisted = false;
};

/// The candidates that may be the truth: of all rules that keep the coverage, leaving out what is
/// less probable than a limit makes the shortest lists (sadinle2019, from memory). Where no limit
/// was learned, what gathers the coverage. The most probable answer always belongs to the set.
/// `ranking` as corrected.
[[nodiscard]] ChosenSet chosen_set(const Ranking &ranking, const Recalibration &recalibration);

} // namespace cospot::matcher
