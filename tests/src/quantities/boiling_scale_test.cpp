#include "quantities/boiling_scale.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot::quantities {
namespace {

// crc, read: boiling points in degrees C. Above C30 handbooks give up to 3 degrees more.
TEST(AlkaneBoilingPoint, AgreesWithTheHandbook) {
    EXPECT_NEAR(alkane_boiling_point(5).value(), 36.1, 0.6);
    EXPECT_NEAR(alkane_boiling_point(10).value(), 174.1, 0.6);
    EXPECT_NEAR(alkane_boiling_point(16).value(), 286.9, 0.6);
    EXPECT_NEAR(alkane_boiling_point(20).value(), 344.1, 0.6);
    EXPECT_NEAR(alkane_boiling_point(30).value(), 451.0, 2.1);
    EXPECT_NEAR(alkane_boiling_point(40).value(), 525.0, 3.1);
}

// egloff1940, formula read: T/K = 745.42 log10(n + 4.4) - 416.31, good to 1.5 degrees for C4 to
// C18.
TEST(AlkaneBoilingPoint, AgreesWithEgloffsFormulaUpToC18) {
    for (int carbon = 5; carbon <= 18; ++carbon) {
        const double kelvin = 745.42 * std::log10(carbon + 4.4) - 416.31;
        EXPECT_NEAR(alkane_boiling_point(carbon).value(), kelvin - 273.15, 1.5) << carbon;
    }
}

TEST(AlkaneBoilingPoint, RisesInEverSmallerSteps) {
    EXPECT_FALSE(alkane_boiling_point(4));
    EXPECT_FALSE(alkane_boiling_point(45));
    for (int carbon = 6; carbon <= 44; ++carbon) {
        const double step = *alkane_boiling_point(carbon) - *alkane_boiling_point(carbon - 1);
        EXPECT_GT(step, 4.0) << carbon;
        EXPECT_LT(step, 34.0) << carbon;
    }
}

// astmd2887, recomputed: index 1099 between C10 (174) and C11 (196).
TEST(BoilingPointFromIndex, MatchesWorkedExample) {
    EXPECT_NEAR(boiling_point_from_index(1099.0), 195.8, 0.1);
}

TEST(BoilingPointFromIndex, IsThatOfTheAlkaneAtItsIndexAndNothingOutside) {
    for (int carbon = 5; carbon <= 44; ++carbon) {
        EXPECT_DOUBLE_EQ(boiling_point_from_index(100.0 * carbon), *alkane_boiling_point(carbon));
    }
    EXPECT_THROW((void)boiling_point_from_index(499.0), InputError);
    EXPECT_THROW((void)boiling_point_from_index(4401.0), InputError);
    EXPECT_THROW((void)boiling_point_from_index(std::nan("")), InputError);
}

// The same by times: a hundredth before the member at 11 min, linear ladder of a minute a carbon.
TEST(BoilingScale, InterpolatesBetweenMembersAndNeverBeyond) {
    const BoilingScale scale =
        boiling_scale({IndexScale::n_alkane, {{9, 9.0}, {10, 10.0}, {11, 11.0}, {13, 13.0}}});
    EXPECT_NEAR(boiling_point_at(scale, 10.99).celsius.value(), 195.8, 0.1);
    EXPECT_EQ(boiling_point_at(scale, 9.0).celsius, 151.0);
    EXPECT_EQ(boiling_point_at(scale, 10.0).celsius, 174.0);
    EXPECT_EQ(boiling_point_at(scale, 13.0).celsius, 235.0);
    EXPECT_EQ(boiling_point_at(scale, 12.0).celsius, (196.0 + 235.0) / 2.0); // across a gap
    EXPECT_FALSE(boiling_point_at(scale, 8.999).celsius);
    EXPECT_EQ(boiling_point_at(scale, 8.999).position, LadderPosition::before_first);
    EXPECT_FALSE(boiling_point_at(scale, 13.001).celsius);
    EXPECT_EQ(boiling_point_at(scale, 13.001).position, LadderPosition::after_last);
}

TEST(BoilingScale, LeavesOutAlkanesWithoutKnownBoilingPoint) {
    const BoilingScale scale = boiling_scale(
        {IndexScale::n_alkane, {{4, 1.0}, {5, 2.0}, {6, 3.0}, {44, 40.0}, {46, 41.0}}});
    EXPECT_EQ(scale.members.size(), 3U);
    EXPECT_EQ(scale.left_out, (std::vector<int>{4, 46}));
}

TEST(BoilingScale, RefusesOtherLadders) {
    EXPECT_THROW((void)boiling_scale({IndexScale::fatty_acid_methyl_ester, {{8, 1.0}, {9, 2.0}}}),
                 InputError);
    EXPECT_THROW((void)boiling_scale({IndexScale::n_alkane, {{8, 1.0}}}), InputError);
    EXPECT_THROW((void)boiling_scale({IndexScale::n_alkane, {{8, 2.0}, {9, 1.0}}}), InputError);
    EXPECT_THROW((void)boiling_scale({IndexScale::n_alkane, {{44, 1.0}, {45, 2.0}}}), InputError);
}

} // namespace
} // namespace cospot::quantities
