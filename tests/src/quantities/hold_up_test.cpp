#include "quantities/hold_up.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

namespace cospot::quantities {
namespace {

/// Isothermal series t = t_M + exp(a + b n) with invented a, b.
std::vector<LadderPoint> isothermal(double hold_up_min, const std::vector<double> &carbons,
                                    double slope = 0.55) {
    std::vector<LadderPoint> points;
    for (const double carbon : carbons) {
        points.push_back({carbon, hold_up_min + std::exp(-4.0 + slope * carbon)});
    }
    return points;
}

// peterson1959, formula from memory; numbers invented.
TEST(HoldUp, MatchesWorkedExamplesOfThreeHomologues) {
    EXPECT_NEAR(hold_up_from_three_homologues(2.0, 3.0, 5.0), 1.0, 1e-9);
    EXPECT_NEAR(hold_up_from_three_homologues(1.35, 1.75, 2.47), 0.85, 1e-6);
}

// The same formula has no solution for equal spacing.
TEST(HoldUp, RefusesEquallySpacedTimes) {
    for (const double step : {1.0, 0.1, 0.7}) {
        EXPECT_THROW((void)hold_up_from_three_homologues(2.0, 2.0 + step, 2.0 + 2.0 * step),
                     InputError);
    }
    EXPECT_THROW((void)hold_up_from_homologues({{8, 2.0}, {9, 3.0}, {10, 4.0}, {11, 5.0}}),
                 InputError);
    EXPECT_THROW((void)hold_up_from_homologues({{8, 2.0}, {9, 3.0}, {11, 5.0}}), InputError);
}

TEST(HoldUp, RefusesNarrowingTimes) {
    EXPECT_THROW((void)hold_up_from_three_homologues(2.0, 4.0, 5.0), InputError);
    EXPECT_THROW((void)hold_up_from_homologues({{8, 2.0}, {9, 4.0}, {10, 5.0}, {11, 5.5}}),
                 InputError);
}

TEST(HoldUp, RefusesANegativeResult) {
    // (2.0 * 4.1 - 9) / 0.1 = -8
    EXPECT_THROW((void)hold_up_from_three_homologues(2.0, 3.0, 4.1), InputError);
    EXPECT_THROW(
        (void)hold_up_from_homologues({{8, 2.0}, {9, 3.0}, {10, 4.1}, {11, 5.31}, {12, 6.641}}),
        InputError);
}

TEST(HoldUp, SaysThatTheSpacingIsNotThatOfAnIsothermalRun) {
    try {
        (void)hold_up_from_three_homologues(2.0, 3.0, 4.0);
        FAIL() << "accepted equal spacing";
    } catch (const InputError &error) {
        EXPECT_NE(std::string(error.what()).find("isothermal or isocratic"), std::string::npos);
    }
}

TEST(HoldUp, RefusesTimesOutOfOrder) {
    EXPECT_THROW((void)hold_up_from_three_homologues(3.0, 2.0, 5.0), InputError);
    EXPECT_THROW((void)hold_up_from_three_homologues(2.0, 5.0, 3.0), InputError);
    EXPECT_THROW((void)hold_up_from_three_homologues(0.0, 2.0, 5.0), InputError);
    EXPECT_THROW((void)hold_up_from_homologues({{8, 2.0}, {10, 5.0}, {9, 3.0}}), InputError);
}

TEST(HoldUp, RefusesFewerThanThreeMembers) {
    EXPECT_THROW((void)hold_up_from_homologues({{8, 2.0}, {9, 3.0}}), InputError);
}

TEST(HoldUp, IsRecoveredFromSyntheticIsothermalSeries) {
    for (const double hold_up_min : {0.05, 0.8, 1.25, 4.0}) {
        for (const auto &carbons :
             {std::vector<double>{6, 7, 8}, {5, 6, 7, 8, 9}, {5, 6, 7, 8, 9, 10, 11, 12}}) {
            EXPECT_NEAR(hold_up_from_homologues(isothermal(hold_up_min, carbons)), hold_up_min,
                        1e-6)
                << carbons.size() << " members, hold-up " << hold_up_min;
        }
    }
}

TEST(HoldUp, IsRecoveredWithUnequalCarbonSteps) {
    for (const auto &carbons :
         {std::vector<double>{6, 7, 9}, {6, 8, 12, 13}, {5, 6, 9, 10, 14}, {8, 12, 13}}) {
        EXPECT_NEAR(hold_up_from_homologues(isothermal(1.25, carbons)), 1.25, 1e-6)
            << carbons.size() << " members from C" << carbons.front();
    }
}

TEST(HoldUp, IsRecoveredFromGentleAndSteepSeries) {
    EXPECT_NEAR(hold_up_from_homologues(isothermal(1.25, {6, 8, 9, 10, 12}, 0.2)), 1.25, 1e-6);
    EXPECT_NEAR(hold_up_from_homologues(isothermal(1.25, {6, 8, 9, 10, 12}, 1.1)), 1.25, 1e-6);
}

TEST(HoldUp, IsZeroForTimesThatAreAdjustedAlready) {
    // The closed form gives -1e-15 here.
    EXPECT_EQ(hold_up_from_three_homologues(0.3, 0.3 * 1.3, 0.3 * 1.3 * 1.3), 0.0);
}

TEST(HoldUp, StaysCloseWhenTimesAreReadToOneHundredth) {
    std::vector<LadderPoint> points = isothermal(1.25, {6, 7, 8, 9, 10, 11});
    for (LadderPoint &point : points) {
        point.retention_time_min = std::round(100.0 * point.retention_time_min) / 100.0;
    }
    EXPECT_NEAR(hold_up_from_homologues(points), 1.25, 0.02);
}

// The bare residual would be least far below 0 here, where all logarithms come to lie close
// together.
TEST(HoldUp, StaysCloseForAGentleSeriesReadToOneHundredth) {
    // 1.25 + exp(-1 + 0.1 (n - 6))
    EXPECT_NEAR(hold_up_from_homologues(
                    {{6, 1.62}, {7, 1.66}, {8, 1.70}, {9, 1.75}, {10, 1.80}, {11, 1.86}}),
                1.25, 0.03);
}

} // namespace
} // namespace cospot::quantities
