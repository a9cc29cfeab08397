#pragma once

#include <Eigen/Dense>

namespace cospot::transfer {

/// Fewer compounds say nothing about how systems go together.
inline constexpr Eigen::Index kFewestCompounds = 10;

/// How retention on several systems goes together: over the compounds of a library their values (on
/// the model scale) follow a multivariate Student t distribution.
struct Relation {
    Eigen::VectorXd mean;             ///< of each system
    Eigen::MatrixXd covariance;       ///< scale of the t, systems x systems, without the scatter of
                                      ///< readings; smaller than the covariance of normal values
    Eigen::VectorXd noise;            ///< variance of a reading on each system
    double typical_correlation = 0.0; ///< of two systems of the table
};

/// Fits the relation to a table of compounds x systems, NaN where nothing was measured, by the EM
/// algorithm with missing values: lange1989, from memory. A prior worth one compound says that two
/// systems go together as those of the table do on the whole: a system of which little is known is
/// taken to be like the others, not foreign to them. Far-out compounds (mistyped values) count
/// little. Cost: up to 100 x patterns of missing cells x systems^3 + 100 x compounds x systems^2.
[[nodiscard]] Relation fit_relation(const Eigen::MatrixXd &values, const Eigen::VectorXd &noise);

/// The relation with that of one system to the others fitted anew, to the compounds measured on it
/// alone: where most compounds were not, the rounds of `fit_relation` are too few to tell it.
/// (Given the other systems, a compound without a reading says nothing about this one.) Unchanged
/// where fewer than three were measured on it and elsewhere.
[[nodiscard]] Relation sharpened(const Relation &relation, const Eigen::MatrixXd &values,
                                 Eigen::Index system);

/// What is expected of a compound on every system from its values on some (NaN elsewhere): mean and
/// covariance of the true values.
struct Expectation {
    Eigen::VectorXd mean;
    Eigen::MatrixXd covariance;
};
[[nodiscard]] Expectation expect(const Relation &relation, const Eigen::VectorXd &values);

/// A correlation of `count` compounds, drawn towards a typical one that counts like five (on the z
/// scale of fisher1921, from memory).
[[nodiscard]] double shrunken_correlation(double correlation, double count, double typical);

} // namespace cospot::transfer
