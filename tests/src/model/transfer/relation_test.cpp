#include "model/transfer/relation.h"

#include "simulated_compounds.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace cospot::transfer {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

Eigen::MatrixXd three_systems() {
    Eigen::MatrixXd covariance(3, 3);
    covariance << 1.0, 0.8, -0.3, //
        0.8, 1.5, 0.1,            //
        -0.3, 0.1, 0.5;
    return covariance;
}

double correlation(const Relation &relation, Eigen::Index a, Eigen::Index b) {
    return relation.covariance(a, b) /
           std::sqrt(relation.covariance(a, a) * relation.covariance(b, b));
}

TEST(Relation, RecoversTheCovarianceOfATableWithMissingCells) {
    Draws draws(1);
    const Eigen::Vector3d mean(5.0, -2.0, 0.5);
    Eigen::MatrixXd values = draws.compounds(3000, three_systems(), 5.0);
    values.rowwise() += mean.transpose();
    draws.take_away(values, 0.3);
    const Relation relation = fit_relation(values, Eigen::Vector3d::Zero());
    EXPECT_LT((relation.mean - mean).cwiseAbs().maxCoeff(), 0.08) << relation.mean;
    EXPECT_LT((relation.covariance - three_systems()).cwiseAbs().maxCoeff(), 0.12)
        << relation.covariance;
}

TEST(Relation, NormalCompoundsKeepTheirCorrelations) {
    // The scale of a Student t is smaller than the covariance of normal values, all of it alike.
    Draws draws(2);
    const Relation relation =
        fit_relation(draws.compounds(3000, three_systems(), kInfinity), Eigen::Vector3d::Zero());
    EXPECT_NEAR(correlation(relation, 0, 1), 0.8 / std::sqrt(1.5), 0.03);
    EXPECT_NEAR(correlation(relation, 0, 2), -0.3 / std::sqrt(0.5), 0.04);
    EXPECT_NEAR(correlation(relation, 1, 2), 0.1 / std::sqrt(0.75), 0.05);
    EXPECT_LT(relation.covariance(0, 0), 1.0);
    EXPECT_GT(relation.covariance(0, 0), 0.6);
}

TEST(Relation, ScatterOfReadingsIsNotPartOfTheCovariance) {
    // True values of variance 1 and covariance 0.6, in readings of variance 0.5.
    Draws draws(3);
    const Eigen::MatrixXd values =
        draws.compounds(2000, Eigen::Matrix2d{{1.5, 0.6}, {0.6, 1.5}}, 5.0);
    const Relation knowing = fit_relation(values, Eigen::Vector2d(0.5, 0.5));
    const Relation ignorant = fit_relation(values, Eigen::Vector2d::Zero());
    EXPECT_NEAR(ignorant.covariance(0, 0), 1.5, 0.15);
    EXPECT_NEAR(correlation(ignorant, 0, 1), 0.4, 0.05);
    EXPECT_NEAR(knowing.covariance(0, 0), 1.0, 0.15);
    EXPECT_NEAR(correlation(knowing, 0, 1), 0.6, 0.06);
}

TEST(Relation, AMistypedValueDoesNotMoveIt) {
    Draws draws(4);
    Eigen::MatrixXd values = draws.compounds(60, three_systems(), kInfinity);
    const Relation before = fit_relation(values, Eigen::Vector3d::Constant(0.01));
    values(17, 1) = 60.0;
    const Relation after = fit_relation(values, Eigen::Vector3d::Constant(0.01));
    EXPECT_LT((after.mean - before.mean).cwiseAbs().maxCoeff(), 0.1);
    EXPECT_LT((after.covariance - before.covariance).cwiseAbs().maxCoeff(), 0.25)
        << before.covariance << "\n\n"
        << after.covariance;
    EXPECT_NEAR(correlation(after, 0, 1), correlation(before, 0, 1), 0.1);
}

TEST(Relation, FewCompoundsShrinkTheCorrelation) {
    // Three compounds on a line do not make two systems the same.
    Eigen::MatrixXd values(3, 2);
    values << -1.0, -1.0, 0.0, 0.0, 1.0, 1.0;
    EXPECT_LT(correlation(fit_relation(values, Eigen::Vector2d::Zero()), 0, 1), 0.9);
}

TEST(Relation, WithoutAnyValueIsFinite) {
    const Relation relation =
        fit_relation(Eigen::MatrixXd::Constant(4, 2, kMissing), Eigen::Vector2d::Zero());
    EXPECT_TRUE(relation.mean.allFinite());
    EXPECT_TRUE(relation.covariance.allFinite());
    EXPECT_GT(relation.covariance(0, 0), 0.0);
}

// anderson, 2.5, from memory: given the value x1, the mean of the second is m2 + s12 / s11 (x1 -
// m1), its variance s22 - s12^2 / s11.
TEST(Relation, ExpectationFromOneValueIsTheRegressionOfTheBivariateNormal) {
    Relation relation;
    relation.mean = Eigen::Vector2d(1.0, 10.0);
    relation.covariance = Eigen::Matrix2d{{4.0, 3.0}, {3.0, 9.0}};
    relation.noise = Eigen::Vector2d::Zero();
    const Expectation expectation = expect(relation, Eigen::Vector2d(3.0, kMissing));
    EXPECT_NEAR(expectation.mean[1], 10.0 + 3.0 / 4.0 * 2.0, 1e-12);
    EXPECT_NEAR(expectation.covariance(1, 1), 9.0 - 3.0 * 3.0 / 4.0, 1e-12);
    EXPECT_NEAR(expectation.mean[0], 3.0, 1e-12);
    EXPECT_NEAR(expectation.covariance(0, 0), 0.0, 1e-12);
}

// The same with the variance of a reading added to s11.
TEST(Relation, ANoisyReadingSaysLess) {
    Relation relation;
    relation.mean = Eigen::Vector2d(1.0, 10.0);
    relation.covariance = Eigen::Matrix2d{{4.0, 3.0}, {3.0, 9.0}};
    relation.noise = Eigen::Vector2d(2.0, 0.5);
    const Expectation expectation = expect(relation, Eigen::Vector2d(3.0, kMissing));
    EXPECT_NEAR(expectation.mean[1], 10.0 + 3.0 / 6.0 * 2.0, 1e-12);
    EXPECT_NEAR(expectation.covariance(1, 1), 9.0 - 3.0 * 3.0 / 6.0, 1e-12);
    EXPECT_NEAR(expectation.covariance(0, 0), 4.0 - 4.0 * 4.0 / 6.0, 1e-12);
}

TEST(Relation, ExpectationFromNothingIsThatOfAnyCompound) {
    Relation relation;
    relation.mean = Eigen::Vector2d(1.0, 10.0);
    relation.covariance = Eigen::Matrix2d{{4.0, 3.0}, {3.0, 9.0}};
    relation.noise = Eigen::Vector2d(2.0, 0.5);
    const Expectation expectation = expect(relation, Eigen::Vector2d(kMissing, kMissing));
    EXPECT_EQ(expectation.mean, relation.mean);
    EXPECT_EQ(expectation.covariance, relation.covariance);
}

} // namespace
} // namespace cospot::transfer
