#include "model/prediction/gaussian_process.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

namespace cospot::prediction {
namespace {

Eigen::MatrixXd covariance_of(Eigen::Index size) {
    Eigen::MatrixXd covariance(size, size);
    for (Eigen::Index i = 0; i < size; ++i) {
        for (Eigen::Index j = 0; j < size; ++j) {
            const double step = static_cast<double>(i - j);
            covariance(i, j) = std::exp(-0.02 * step * step) + (i == j ? 0.1 : 0.0);
        }
    }
    return covariance;
}

Eigen::VectorXd values_of(Eigen::Index size) {
    return Eigen::VectorXd::LinSpaced(size, 0.0, 6.0).array().sin();
}

TEST(InverseOf, InvertsAcrossItsPanels) {
    for (const Eigen::Index size : {1, 63, 64, 65, 150}) {
        const Eigen::MatrixXd covariance = covariance_of(size);
        const Eigen::MatrixXd inverse = inverse_of(covariance.llt());
        EXPECT_LT((inverse * covariance - Eigen::MatrixXd::Identity(size, size)).norm(), 1e-9)
            << size;
        EXPECT_EQ(inverse, inverse.transpose()) << size;
    }
}

TEST(GaussianProcess, LeavesOutAsIfFittedWithoutTheValue) {
    const Eigen::Index size = 12;
    const Eigen::MatrixXd covariance = covariance_of(size);
    const Eigen::VectorXd values = values_of(size);
    const GaussianProcess all = fit_gaussian_process(covariance, values);
    for (Eigen::Index out = 0; out < size; ++out) {
        std::vector<Eigen::Index> others;
        for (Eigen::Index i = 0; i < size; ++i) {
            if (i != out) {
                others.push_back(i);
            }
        }
        const auto without = fit_gaussian_process(covariance(others, others), values(others));
        const Moments expected = predict(without, covariance(others, out), covariance(out, out));
        const Moments closed = left_out(all, values, out);
        EXPECT_NEAR(closed.mean, expected.mean, 1e-9);
        EXPECT_NEAR(closed.variance, expected.variance, 1e-9);
    }
}

TEST(GaussianProcess, FallsBackToItsPriorFarAway) {
    const auto process = fit_gaussian_process(covariance_of(5), values_of(5));
    const Moments moments = predict(process, Eigen::VectorXd::Zero(5), 1.1);
    EXPECT_EQ(moments.mean, 0.0);
    EXPECT_EQ(moments.variance, 1.1);
}

TEST(GaussianProcess, RefusesWhatIsNoCovariance) {
    Eigen::MatrixXd wrong = Eigen::MatrixXd::Identity(2, 2);
    wrong(0, 1) = wrong(1, 0) = 2.0;
    EXPECT_THROW(static_cast<void>(fit_gaussian_process(wrong, Eigen::VectorXd::Ones(2))),
                 std::invalid_argument);
}

} // namespace
} // namespace cospot::prediction
