#include "quantities/plate.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace cospot::quantities {
namespace {

// teachingformulas and teachingtlc, read.
TEST(RetardationFactor, MatchesTeachingTexts) {
    EXPECT_NEAR(retardation_factor(32.0, 80.0), 0.40, 0.0005);
    EXPECT_NEAR(retardation_factor(21.0, 28.0), 0.75, 1e-9);
}

TEST(RetardationFactor, IsZeroAtTheStartAndOneAtTheFront) {
    EXPECT_EQ(retardation_factor(0.0, 63.0), 0.0);
    EXPECT_EQ(retardation_factor(63.0, 63.0), 1.0);
}

TEST(RetardationFactor, RefusesWhatNoPlateGives) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_THROW((void)retardation_factor(81.0, 80.0), InputError);
    EXPECT_THROW((void)retardation_factor(-1.0, 80.0), InputError);
    EXPECT_THROW((void)retardation_factor(0.0, 0.0), InputError);
    EXPECT_THROW((void)retardation_factor(10.0, -80.0), InputError);
    EXPECT_THROW((void)retardation_factor(nan, 80.0), InputError);
    EXPECT_THROW((void)retardation_factor(10.0, nan), InputError);
    EXPECT_THROW((void)retardation_factor(10.0, std::numeric_limits<double>::infinity()),
                 InputError);
    EXPECT_THROW((void)retardation_factor(10.0, 80.0, -0.5), InputError);
}

TEST(RetardationFactor, SaysWhatWasFoundAndExpectedWithoutAPlace) {
    try {
        (void)retardation_factor(81.0, 80.0);
        FAIL() << "accepted a spot beyond the front";
    } catch (const InputError &error) {
        EXPECT_STREQ(error.what(),
                     "found a spot distance of 81; expected at most the front distance of 80 mm");
        EXPECT_TRUE(error.where().file.empty());
    }
}

// jcgm100, 5.1.2, with the partial derivatives taken numerically.
TEST(RetardationFactor, UncertaintyEqualsNumericalPropagation) {
    constexpr double kStep = 1e-5;
    const double readings[][2] = {{0.0, 80.0}, {8.0, 80.0}, {32.0, 80.0}, {55.0, 60.0}};
    for (const auto &[distance, front] : readings) {
        const auto ratio = [](double d, double f) { return d / f; };
        const double by_distance =
            (ratio(distance + kStep, front) - ratio(distance - kStep, front)) / (2.0 * kStep);
        const double by_front =
            (ratio(distance, front + kStep) - ratio(distance, front - kStep)) / (2.0 * kStep);
        const double expected = std::hypot(by_distance, by_front) * 0.7;
        const Uncertain rf = retardation_factor(distance, front, 0.7);
        EXPECT_DOUBLE_EQ(rf.value, retardation_factor(distance, front));
        EXPECT_NEAR(rf.standard_uncertainty, expected, 1e-9) << distance << " of " << front;
    }
}

TEST(RetardationFactor, RulerErrorMattersLessOnALongRun) {
    const Uncertain short_run = retardation_factor(20.0, 40.0, kRulerReadingError_mm);
    const Uncertain long_run = retardation_factor(40.0, 80.0, kRulerReadingError_mm);
    EXPECT_NEAR(short_run.standard_uncertainty, 2.0 * long_run.standard_uncertainty, 1e-12);
    EXPECT_EQ(retardation_factor(20.0, 40.0, 0.0).standard_uncertainty, 0.0);
}

// ettre1993 (R05359), formula read: log k equals R_M; number computed.
TEST(RM, MatchesGoldBook) {
    EXPECT_NEAR(r_m(0.40), 0.1761, 0.0001);
}

// teachingformulas, read: k 1.5 at R_F 0.40.
TEST(RM, IsTheLogarithmOfTheRetentionFactor) {
    EXPECT_NEAR(std::pow(10.0, r_m(0.40)), 1.5, 1e-9);
}

TEST(RM, IsOddAroundOneHalf) {
    for (const double rf : {0.01, 0.2, 0.5, 0.77, 0.99}) {
        EXPECT_NEAR(r_m(rf), -r_m(1.0 - rf), 1e-12);
        EXPECT_NEAR(rf_of_r_m(r_m(rf)), rf, 1e-12);
    }
}

TEST(RM, HasNoValueAtStartAndFront) {
    EXPECT_THROW((void)r_m(0.0), InputError);
    EXPECT_THROW((void)r_m(1.0), InputError);
}

} // namespace
} // namespace cospot::quantities
