#include "model/matcher/dependence.h"

#include <boost/math/distributions/normal.hpp>

#include <gtest/gtest.h>

#include <cmath>

namespace cospot::matcher {
namespace {

/// What the module makes of a correlation: it is known to so much only.
constexpr double kTrust = 0.95;

ErrorCorrelation pair(double correlation) {
    return {{0, 1}, Eigen::Matrix2d{{1.0, correlation}, {correlation, 1.0}}};
}

double below(double score) {
    return boost::math::cdf(boost::math::normal(), score);
}

/// Logarithm of the bivariate normal density over the product of its marginal ones (anderson, 2.3,
/// from memory).
double density_ratio(double x, double y, double r) {
    return -0.5 * std::log(1.0 - r * r) -
           (r * r * (x * x + y * y) - 2.0 * r * x * y) / (2.0 * (1.0 - r * r));
}

TEST(Dependence, IsTheDensityRatioOfTheBivariateNormal) {
    for (const double correlation : {-0.7, 0.3, 0.9}) {
        for (const auto &[x, y] : {std::pair{0.0, 0.0}, {1.0, 1.0}, {-1.5, 0.4}, {2.0, -2.0}}) {
            EXPECT_NEAR(log_dependence(pair(correlation), {{0, below(x)}, {1, below(y)}}),
                        density_ratio(x, y, kTrust * correlation), 1e-9)
                << correlation << ' ' << x << ' ' << y;
        }
    }
}

TEST(Dependence, DensityIntegratesToOne) {
    // Over all pairs of ranks its mean is 1.
    constexpr int steps = 200;
    double sum = 0.0;
    for (int i = 0; i < steps; ++i) {
        for (int j = 0; j < steps; ++j) {
            sum += std::exp(
                log_dependence(pair(0.6), {{0, (i + 0.5) / steps}, {1, (j + 0.5) / steps}}));
        }
    }
    EXPECT_NEAR(sum / (steps * steps), 1.0, 0.01);
}

TEST(Dependence, WithoutCorrelationReadingsAreIndependent) {
    EXPECT_NEAR(log_dependence(pair(0.0), {{0, 0.9}, {1, 0.99}}), 0.0, 1e-12);
    EXPECT_EQ(log_dependence({}, {{0, 0.9}, {1, 0.99}}), 0.0);
}

TEST(Dependence, OneReadingIsIndependent) {
    EXPECT_EQ(log_dependence(pair(0.8), {{0, 0.9}}), 0.0);
    EXPECT_EQ(log_dependence(pair(0.8), {}), 0.0);
}

TEST(Dependence, ReadingsOnOtherSystemsAndRepeatedOnesDoNotCount) {
    const double expected = log_dependence(pair(0.8), {{0, 0.9}, {1, 0.7}});
    EXPECT_NE(expected, 0.0);
    EXPECT_EQ(log_dependence(pair(0.8), {{7, 0.01}, {0, 0.9}, {1, 0.7}, {0, 0.2}}), expected);
    EXPECT_EQ(log_dependence(pair(0.8), {{0, 0.9}, {7, 0.7}}), 0.0);
    EXPECT_EQ(log_dependence(pair(0.8), {{0, 0.9}, {0, 0.7}}), 0.0);
}

TEST(Dependence, TheOrderOfTheReadingsDoesNotMatter) {
    EXPECT_NEAR(log_dependence(pair(0.8), {{0, 0.9}, {1, 0.6}}),
                log_dependence(pair(0.8), {{1, 0.6}, {0, 0.9}}), 1e-12);
}

TEST(Dependence, CertainRanksAndFullCorrelationStayFinite) {
    EXPECT_TRUE(std::isfinite(log_dependence(pair(1.0), {{0, 0.0}, {1, 1.0}})));
    EXPECT_GT(log_dependence(pair(1.0), {{0, 1.0}, {1, 1.0}}), 0.0);
}

TEST(Dependence, ThreeSystemsFactorWhereTheThirdIsIndependent) {
    Eigen::Matrix3d correlation = Eigen::Matrix3d::Identity();
    correlation(0, 2) = correlation(2, 0) = 0.7;
    EXPECT_NEAR(log_dependence({{4, 5, 6}, correlation}, {{4, 0.2}, {5, 0.99}, {6, 0.4}}),
                log_dependence(pair(0.7), {{0, 0.2}, {1, 0.4}}), 1e-12);
}

JointReadings joint(double correlation) {
    return {{0, 1},
            Eigen::Vector2d(1.0, 2.0),
            Eigen::Matrix2d{{4.0, 2.0 * correlation}, {2.0 * correlation, 1.0}}};
}

TEST(JointReadings, AtTheCentreEqualTheRatioOfBivariateTDensities) {
    // At the centre of a bivariate t the densities are (2 pi)^-1 |S|^-1/2 together and, for 5
    // degrees of freedom, Gamma(3) / (Gamma(5/2) sqrt(5 pi)) = 0.3796 over the deviation apart
    // (lange1989, from memory).
    constexpr double kUnlike = 0.1;
    const double together = 1.0 / (2.0 * 3.14159265 * 2.0 * std::sqrt(1.0 - 0.81));
    const double apart = 0.379607 * 0.379607 / 2.0;
    EXPECT_NEAR(log_together(joint(0.9), {{0, 1.0}, {1, 2.0}}),
                std::log((1.0 - kUnlike) * together / apart + kUnlike), 1e-5);
}

TEST(JointReadings, PenaltyOfAnUnusualCompoundIsBounded) {
    // Far apart on two systems that go together: a compound unlike those of the library.
    EXPECT_NEAR(log_together(joint(0.99), {{0, 9.0}, {1, -2.0}}), std::log(0.1), 0.05);
}

TEST(JointReadings, OneReadingAndThoseOfOtherSystemsDoNotCount) {
    EXPECT_EQ(log_together(joint(0.9), {{0, 1.0}}), 0.0);
    EXPECT_EQ(log_together(joint(0.9), {{0, 1.0}, {7, 2.0}}), 0.0);
}

} // namespace
} // namespace cospot::matcher
