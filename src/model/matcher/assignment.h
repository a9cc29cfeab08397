#pragma once

#include <cstddef>
#include <vector>

namespace cospot::matcher {

/// One compound that a feature may be.
struct Edge {
    std::size_t compound = 0;
    double odds = 0.0; ///< of "the feature is this compound" against "unlisted", 0 to 1e300
};

/// The features of one lane or run. A compound explains at most one of them; each feature is at
/// most one compound, or else unlisted.
struct AssignmentProblem {
    /// In the order of retention, which keeps the exact solution cheap; a feature names a compound
    /// at most once.
    std::vector<std::vector<Edge>> features;
};

/// How much work may be spent before the result becomes approximate.
struct AssignmentLimits {
    std::size_t states = 4096;       ///< sets of used compounds that are told apart in one step
    std::size_t choices = 4'000'000; ///< states times edges in all steps of one component
    double negligible = 1e-6;        ///< probability that an approximation may leave out at first
};

/// How `Marginals::error_bound` is known.
enum class ErrorBasis {
    rounding, ///< nothing was left out
    bound,    ///< what was left out is bounded rigorously
    estimate  ///< no useful bound: by trials, which single cases can exceed
};

/// The sum over all edges of a feature and `unlisted` is 1.
struct FeatureMarginals {
    std::vector<double> probabilities; ///< in the order of the feature's edges
    double unlisted = 1.0;
};

/// Marginals of all features, in the order of the problem.
struct Marginals {
    std::vector<FeatureMarginals> features;
    double error_bound = 0.0; ///< of any probability, absolute; see `error_basis`
    ErrorBasis error_basis = ErrorBasis::rounding;
};

/// Probabilities of joint identification: a matching of features with compounds weighs the product
/// of the odds of its edges, and a marginal is the share of the matchings that hold the edge.
///
/// Features that share compounds are solved together, by a dynamic programme (assignment_trellis.h)
/// that is exact where it stays within `limits`. Beyond, edges that are together less likely than
/// `limits.negligible` are left out first. In problems of more than 5000 edges a feature whose
/// compound another one has with a probability below 0.002 stands alone. What is still too wide is
/// solved by message passing (assignment_messages.h) where that is good to 0.002, else with merged
/// states where these touch little of the weight, and else by messages after all. Both bound their
/// error; where that is above 0.02, matchings are drawn at random (assignment_sampling.h): what
/// agrees with them stands, else the draws do, and what the draws scatter by is stated as an
/// estimate. Where the draws do not settle, or some odds are above a million, the bound is stated,
/// and 0.25 where there is none. On simulated crowded runs answers were off by 0.004 at the worst
/// feature (assignment_test.cpp); messages alone by up to 0.42 on random graphs of 11 and 20
/// features with up to 9 compounds each, where few matchings with very large odds compete. Where
/// the result is not exact, the probabilities of a compound over all features can sum to slightly
/// more than 1.
///
/// Throws std::invalid_argument for odds that are negative, above 1e300 or not a number.
[[nodiscard]] Marginals assign(const AssignmentProblem &problem,
                               const AssignmentLimits &limits = {});

} // namespace cospot::matcher
