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
    std::size_t states = 4096; ///< sets of used compounds that are told apart at once
    double negligible = 1e-6;  ///< probability that may be given up before states are merged
};

/// How `Marginals::error_bound` is known.
enum class ErrorBasis {
    rounding, ///< nothing was left out
    bound,    ///< what was left out is bounded rigorously
    estimate  ///< no useful bound: how far two approximations differ
};

/// The sum over all edges of a feature and `unlisted` is 1.
struct FeatureMarginals {
    std::vector<double> probabilities; ///< in the order of the feature's edges
    double unlisted = 1.0;
};

/// Marginals of all features, in the order of the problem.
struct Marginals {
    std::vector<FeatureMarginals> features;
    double error_bound = 0.0; ///< largest absolute error of any probability
    ErrorBasis error_basis = ErrorBasis::rounding;
};

/// Probabilities of joint identification: a matching of features with compounds weighs the product
/// of the odds of its edges, and a marginal is the share of the matchings that hold the edge.
///
/// Features that share compounds are solved together, by a dynamic programme (assignment_trellis.h)
/// that is exact while no step holds more than `limits.states` states. Beyond that, edges that are
/// together less likely than `limits.negligible` are left out, states are merged and the error is
/// bounded; where the bound is above 0.05, the trellis is set against message passing
/// (assignment_messages.h) and their difference is stated as an estimate of the error, which the
/// true error can exceed.
///
/// Throws std::invalid_argument for odds that are negative, above 1e300 or not a number.
[[nodiscard]] Marginals assign(const AssignmentProblem &problem,
                               const AssignmentLimits &limits = {});

} // namespace cospot::matcher
