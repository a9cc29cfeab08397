#include "model/prediction/mixture_kernel.h"

#include <gtest/gtest.h>

namespace cospot::prediction {
namespace {

TEST(MixtureCovariance, CountsTheFirstTraceOfAModifierMost) {
    const std::vector<Mixture> mixtures = {{1.0, 0.0}, {0.98, 0.02}, {0.5, 0.5}, {0.48, 0.52}};
    const Eigen::MatrixXd covariance = mixture_covariance({}, mixtures, mixtures);
    EXPECT_LT(covariance(0, 1), covariance(2, 3));
    EXPECT_LT(covariance(0, 2), covariance(0, 1)) << "farther mixtures go less together";
    EXPECT_EQ(covariance, covariance.transpose());
    EXPECT_TRUE(covariance.diagonal().isOnes());
}

TEST(MixtureCovariance, IsOneForSystemsWithoutMixture) {
    EXPECT_EQ(mixture_covariance({}, {{}}, {{}})(0, 0), 1.0);
}

TEST(MixtureCovariance, WidensWithItsWidth) {
    const std::vector<Mixture> mixtures = {{1.0, 0.0}, {0.7, 0.3}};
    EXPECT_LT(mixture_covariance({0.03, 0.3}, mixtures, mixtures)(0, 1),
              mixture_covariance({0.03, 0.9}, mixtures, mixtures)(0, 1));
}

} // namespace
} // namespace cospot::prediction
