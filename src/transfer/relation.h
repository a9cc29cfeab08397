#pragma once

#include <Eigen/Dense>

namespace cospot::transfer {

/// Fewer compounds say nothing about how systems go together.
inline constexpr Eigen::Index kFewestCompounds = 10;

/// How retention on several systems goes together: over the compounds of a library their values (on
/// the model scale) follow a multivariate Student t distribution.
struct Relation {
    Eigen::VectorXd mean;       ///< of each system
    Eigen::MatrixXd covariance; ///< scale of the t, systems x systems, without the scatter of
                                ///< readings; smaller than the covariance of normal values
    Eigen::VectorXd noise;      ///< variance of a reading on each system
};

/// Fits the relation to a table of compounds x systems, NaN where nothing was measured, by the
/// EM algorithm with missing values: K. L. Lange, R. J. A. Little, J. M. G. Taylor, J. Am. Stat.
/// Assoc. 1989, 84, 881 (equations from memory), with a weak prior for systems that do not go
/// together. Far-out compounds (mistyped values) count little. Cost: 40 x compounds x systems^3.
[[nodiscard]] Relation fit_relation(const Eigen::MatrixXd &values, const Eigen::VectorXd &noise);

/// What is expected of a compound on every system from its values on some (NaN elsewhere): mean and
/// covariance of the true values.
struct Expectation {
    Eigen::VectorXd mean;
    Eigen::MatrixXd covariance;
};
[[nodiscard]] Expectation expect(const Relation &relation, const Eigen::VectorXd &values);

} // namespace cospot::transfer
