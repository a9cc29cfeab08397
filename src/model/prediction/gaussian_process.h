#pragma once

#include <Eigen/Dense>

namespace cospot::prediction {

/// A Gaussian process fitted to values: C. E. Rasmussen, C. K. I. Williams, Gaussian Processes for
/// Machine Learning (2006), algorithm 2.1. `covariance` of the training values has the noise in it.
struct GaussianProcess {
    Eigen::MatrixXd inverse; ///< of the covariance of the training values
    Eigen::VectorXd weights; ///< inverse times values
};

/// Mean and variance of a value.
struct Moments {
    double mean = 0.0;
    double variance = 0.0;
};

/// The inverse of a factorised matrix, symmetric to the last bit. Cost: 2/3 n^3, a third of solving
/// for the identity.
[[nodiscard]] Eigen::MatrixXd inverse_of(const Eigen::LLT<Eigen::MatrixXd> &factor);

/// Cost: n^3. Throws std::invalid_argument where the covariance is not positive definite.
[[nodiscard]] GaussianProcess fit_gaussian_process(const Eigen::MatrixXd &covariance,
                                                   const Eigen::VectorXd &values);

/// What is expected where `cross` is the covariance with the training values and `prior` the
/// variance before they were seen. Noise of the new value is included if it is in `prior`.
[[nodiscard]] Moments predict(const GaussianProcess &process, const Eigen::VectorXd &cross,
                              double prior);

/// What the process says about training value `index` (with its noise) when fitted to all others,
/// equations 5.12 of the book.
[[nodiscard]] Moments left_out(const GaussianProcess &process, const Eigen::VectorXd &values,
                               Eigen::Index index);

} // namespace cospot::prediction
