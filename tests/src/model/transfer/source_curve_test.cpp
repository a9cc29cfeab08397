#include "model/transfer/source_curve.h"

#include "simulated_compounds.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot::transfer {
namespace {

/// Two sources and a target (the third column of the sources, left at 0), which follows from the
/// first source alone.
struct Compounds {
    Eigen::MatrixXd sources;
    Eigen::VectorXd readings;
};

Compounds simulated(std::uint32_t seed, Eigen::Index count, double bend, double scatter) {
    Draws draws(seed);
    Compounds compounds{Eigen::MatrixXd::Zero(count, 3), Eigen::VectorXd(count)};
    for (Eigen::Index c = 0; c < count; ++c) {
        const double x = draws.normal();
        compounds.sources(c, 0) = x;
        compounds.sources(c, 1) = 0.5 * x + 0.9 * draws.normal();
        compounds.readings[c] = 3.0 + 2.0 * x + bend * std::sin(2.0 * x) + scatter * draws.normal();
    }
    return compounds;
}

SourceCurve fitted(const Compounds &compounds) {
    return fit_source_curve(compounds.sources, compounds.readings, 2, 0.6);
}

TEST(SourceCurve, FollowsALineFromFewCompounds) {
    const SourceCurve curve = fitted(simulated(1, 12, 0.0, 0.1));
    for (const double x : {-1.0, 0.0, 1.0}) {
        EXPECT_NEAR(reading_from(curve, Eigen::Vector3d(x, 0.5 * x, 0.0)).mean, 3.0 + 2.0 * x, 0.35)
            << x;
    }
}

TEST(SourceCurve, FollowsABendWhereThereAreEnough) {
    const SourceCurve curve = fitted(simulated(2, 200, 0.8, 0.1));
    for (const double x : {-1.5, -0.5, 0.5, 1.5}) {
        EXPECT_NEAR(reading_from(curve, Eigen::Vector3d(x, 0.5 * x, 0.0)).mean,
                    3.0 + 2.0 * x + 0.8 * std::sin(2.0 * x), 0.2)
            << x;
    }
}

TEST(SourceCurve, TheMostCorrelatedSystemWeighsMost) {
    const SourceCurve curve = fitted(simulated(3, 100, 0.0, 0.1));
    EXPECT_GT(curve.source.weights[0], 0.8);
    EXPECT_EQ(curve.source.weights[2], 0.0);
    EXPECT_EQ(curve.source.leading.front(), 0);
}

TEST(SourceCurve, SaysHowFarLeftOutReadingsAreOff) {
    Compounds compounds = simulated(4, 150, 0.0, 0.3);
    const SourceCurve curve = fitted(compounds);
    double squares = 0.0;
    for (Eigen::Index c = 0; c < 150; ++c) {
        const prediction::Moments &moments = curve.left_out[static_cast<std::size_t>(c)];
        squares += std::pow(compounds.readings[c] - moments.mean, 2) / moments.variance / 150.0;
    }
    EXPECT_NEAR(squares, 1.0, 0.3);
}

TEST(SourceCurve, AMistypedReadingHardlyMovesIt) {
    Compounds compounds = simulated(5, 60, 0.0, 0.1);
    const Eigen::Vector3d somewhere(0.5, 0.25, 0.0);
    const double before = reading_from(fitted(compounds), somewhere).mean;
    compounds.readings[7] += 20.0;
    EXPECT_NEAR(reading_from(fitted(compounds), somewhere).mean, before, 0.4);
}

TEST(SourceCurve, IsLessSureFarFromItsCompounds) {
    const SourceCurve curve = fitted(simulated(6, 60, 0.0, 0.1));
    EXPECT_GT(reading_from(curve, Eigen::Vector3d(6.0, 3.0, 0.0)).variance,
              1.5 * reading_from(curve, Eigen::Vector3d(0.0, 0.0, 0.0)).variance);
}

TEST(SourceCurve, NothingIsKnownBetterThanItsNoise) {
    // Two systems that agree but for a ten-millionth, as rows of one instrument under two names:
    // the variance is a difference of large numbers.
    Compounds compounds = simulated(7, 600, 0.0, 0.0);
    Draws draws(8);
    for (Eigen::Index c = 0; c < 600; ++c) {
        compounds.sources(c, 0) = 3e-3 * static_cast<double>(c);
        compounds.sources(c, 1) = compounds.sources(c, 0) + 1e-7 * draws.normal();
        compounds.readings[c] = compounds.sources(c, 0) + 1e-7 * draws.normal();
    }
    const SourceCurve curve = fitted(compounds);
    const double least = curve.deviation * curve.deviation * curve.shape.noise * (1.0 - 1e-12);
    for (Eigen::Index c = 0; c < 600; ++c) {
        EXPECT_GE(reading_from(curve, compounds.sources.row(c)).variance, least) << c;
        EXPECT_GE(curve.left_out[static_cast<std::size_t>(c)].variance, least) << c;
    }
}

} // namespace
} // namespace cospot::transfer
