#include "model/prediction/gaussian_process.h"

#include <algorithm>
#include <stdexcept>

namespace cospot::prediction {

Eigen::MatrixXd inverse_of(const Eigen::LLT<Eigen::MatrixXd> &factor) {
    constexpr Eigen::Index panel = 64;
    const Eigen::Index size = factor.rows();
    // The inverse of the lower factor, panel by panel of columns: above the diagonal it is zero.
    Eigen::MatrixXd lower = Eigen::MatrixXd::Zero(size, size);
    for (Eigen::Index at = 0; at < size; at += panel) {
        const Eigen::Index width = std::min(panel, size - at);
        const Eigen::Index rest = size - at;
        lower.block(at, at, rest, width) =
            factor.matrixLLT()
                .bottomRightCorner(rest, rest)
                .triangularView<Eigen::Lower>()
                .solve(Eigen::MatrixXd::Identity(rest, width).eval());
    }
    Eigen::MatrixXd inverse(size, size);
    for (Eigen::Index at = 0; at < size; at += panel) {
        const Eigen::Index width = std::min(panel, size - at);
        const Eigen::Index rest = size - at;
        inverse.block(at, 0, width, at + width).noalias() =
            lower.block(at, at, rest, width).transpose() * lower.block(at, 0, rest, at + width);
    }
    inverse.triangularView<Eigen::StrictlyUpper>() = inverse.transpose();
    return inverse;
}

GaussianProcess fit_gaussian_process(const Eigen::MatrixXd &covariance,
                                     const Eigen::VectorXd &values) {
    const Eigen::LLT<Eigen::MatrixXd> factor(covariance);
    if (factor.info() != Eigen::Success) {
        throw std::invalid_argument("the covariance is not positive definite");
    }
    GaussianProcess process;
    process.inverse = inverse_of(factor);
    process.weights = factor.solve(values);
    return process;
}

Moments predict(const GaussianProcess &process, const Eigen::VectorXd &cross, double prior) {
    const double explained = cross.dot(process.inverse * cross);
    return {cross.dot(process.weights), prior - explained};
}

Moments left_out(const GaussianProcess &process, const Eigen::VectorXd &values,
                 Eigen::Index index) {
    const double variance = 1.0 / process.inverse(index, index);
    return {values[index] - process.weights[index] * variance, variance};
}

} // namespace cospot::prediction
