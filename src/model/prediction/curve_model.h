#pragma once

#include "model/prediction/compound_space.h"
#include "model/prediction/mixture_kernel.h"
#include "model/prediction/retention_table.h"

#include <Eigen/Dense>

#include <vector>

namespace cospot::prediction {

/// What the curve of a compound over the mixtures is made of, as shares of the variance:
/// - a part that its structure shares with compounds like it: `weights`, carried along the mixtures
///   by `shared`;
/// - a part of its own: `own`, carried along by the same knee and `own_width`;
/// - the scatter of a single value: `noise`.
struct CurveParameters {
    CompoundWeights weights;
    MixtureKernel shared;
    double own = 0.02;
    double own_width = 4.0;
    double noise = 0.05;
};

/// A compound's curve: what is expected in each mixture of the table and how the errors go
/// together; the scatter of a single value is not in `covariance`.
struct Curve {
    Eigen::VectorXd mean;
    Eigen::MatrixXd covariance;
};

/// A Gaussian process over compounds and mixtures (a coregionalised or multilevel model). Each
/// compound's values are condensed to what they say about a few curve coefficients, which makes it
/// cost (compounds x coefficients)^3 / 3 instead of (values)^3 / 3: 400 compounds in ten eluents
/// take about 0.2 s.
struct CurveModel {
    CurveParameters parameters;
    CentredValues values;
    Eigen::MatrixXd kernel;             ///< between the compounds of the table
    Eigen::MatrixXd basis;              ///< mixtures x coefficients
    Eigen::MatrixXd own;                ///< covariance of a compound's own part, all mixtures
    std::vector<Eigen::MatrixXd> roots; ///< per compound: what its values know of the coefficients
    Eigen::VectorXd condensed;          ///< the condensed values, standard deviation of noise 1
    Eigen::LLT<Eigen::MatrixXd> factor; ///< of the covariance of `condensed`
    Eigen::VectorXd weights;            ///< the inverse of that covariance times `condensed`
};

/// `kernel` is `compound_kernel` of the table's compounds with themselves.
[[nodiscard]] CurveModel fit_curves(const RetentionTable &table, const Eigen::MatrixXd &kernel,
                                    const CurveParameters &parameters);

/// The curve of a compound that is not in the table: `cross` is its kernel with the table's
/// compounds, `self` with itself.
[[nodiscard]] Curve predict_curve(const CurveModel &model, const Eigen::VectorXd &cross,
                                  double self);

/// The curve of each compound of the table as if none of its values were known, in closed form: the
/// same as fitting without it (at the same parameters and offsets). Cost: that of a fit.
[[nodiscard]] std::vector<Curve> left_out_curves(const CurveModel &model);

/// Mean squared error of the values of left-out compounds, in squared units of `CentredValues`;
/// an error of more than two units counts as two.
[[nodiscard]] double left_out_error(const CurveModel &model);

/// Variance of a single value around its curve, in the unit of the values squared.
[[nodiscard]] double noise_variance(const CurveModel &model);

} // namespace cospot::prediction
