#pragma once

#include "matcher/system_model.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace cospot::matcher {

/// One measured quantity of a feature on one system.
struct Observation {
    std::size_t system = 0;   ///< index of the system model
    double value = 0.0;       ///< in the unit of the quantity
    double uncertainty = 0.0; ///< standard uncertainty of this reading, in the same unit
};

/// What was believed before the measurement.
struct Prior {
    double unlisted = 0.2;       ///< probability that the feature is none of the candidates
    std::vector<double> weights; ///< of the compounds, relative; empty: all equal
};

/// A compound with its probability.
struct RankedCandidate {
    std::size_t compound = 0; ///< index in the problem's list of compounds
    double probability = 0.0;
};

/// All candidates of one feature, the likeliest first; with `unlisted` they sum to 1.
struct Ranking {
    std::vector<RankedCandidate> candidates;
    double unlisted = 1.0;
};

/// How one observation bears on one candidate, in the unit of the quantity.
struct Comparison {
    std::size_t observation = 0; ///< index in the feature's observations
    double expected = 0.0;
    double spread = 0.0;    ///< predictive standard spread, the reading's uncertainty included
    double deviation = 0.0; ///< observed minus expected
    Basis basis = Basis::measured;
    std::size_t runs = 0; ///< independent runs behind the expected value
};

/// Bayes' rule over all compounds that were measured on at least one observed system, and
/// `unlisted`. Observations are taken as independent given the compound; where a candidate was not
/// measured on an observed system, that observation counts for it as it does for `unlisted`.
/// `further` adds the log-likelihood ratio of other evidence against `unlisted`, one for each
/// compound index; empty: there is none.
[[nodiscard]] Ranking rank_candidates(std::span<const Observation> observations,
                                      std::span<const SystemModel> systems, const Prior &prior,
                                      std::span<const double> further = {});

/// The comparison of a candidate with each observation on a system where it was measured.
[[nodiscard]] std::vector<Comparison> compare(std::size_t compound,
                                              std::span<const Observation> observations,
                                              std::span<const SystemModel> systems);

/// The shortest list that holds the truth with the probability `coverage`: how many of the ranked
/// candidates it takes, and whether `unlisted` is among them (where its rank puts it).
struct CandidateSet {
    std::size_t candidates = 0;
    bool unlisted = false;
};
[[nodiscard]] CandidateSet candidate_set(const Ranking &ranking, double coverage);

} // namespace cospot::matcher
