#include "fractions/plates.h"

#include "columns.h"

#include <gtest/gtest.h>

namespace cospot::fractions {
namespace {

TEST(ReadTogether, SortsFractionsAndSpots) {
    const auto read = read_together({lane(2, {0.2, 0.6}), lane(1, {})}, 0.03);
    ASSERT_EQ(read.fractions.size(), 2U);
    EXPECT_EQ(read.fractions[0].number, 1);
    EXPECT_TRUE(read.fractions[0].spots.empty());
    EXPECT_DOUBLE_EQ(read.fractions[1].spots[0].rf, 0.6);
    EXPECT_TRUE(read.shifts.empty());
}

TEST(ReadTogether, SharedFractionsCorrectTheShiftBetweenPlates) {
    const auto read = read_together({lane(1, {0.60, 0.40}, "one"), lane(2, {0.60, 0.40}, "one"),
                                     lane(2, {0.66, 0.47}, "two"), lane(3, {0.66, 0.46}, "two")},
                                    0.03);
    ASSERT_EQ(read.shifts.size(), 1U);
    EXPECT_EQ(read.shifts[0].plate, "two");
    EXPECT_EQ(read.shifts[0].shared_fractions, 1U);
    EXPECT_NEAR(read.shifts[0].shift, 0.065, 1e-12);
    EXPECT_NEAR(read.fractions[2].spots[0].rf, 0.595, 1e-12);
    // The shared fraction keeps two spots, not four.
    ASSERT_EQ(read.fractions[1].spots.size(), 2U);
    EXPECT_NEAR(read.fractions[1].spots[0].rf, (0.60 + 0.595) / 2, 1e-12);
    EXPECT_EQ(read.fractions[1].plates, (std::vector<std::string>{"one", "two"}));
}

TEST(ReadTogether, StandardsOnBothPlatesMoveThemInRM) {
    // R_F 0.5 and 0.6 of the standard: R_M 0 and -0.17609 (bateSmith, worked by hand), so that the
    // second plate's 0.75 (R_M -0.47712) is 1/(1 + 10^-0.30103) = 2/3 on the first.
    const std::vector<Lane> lanes{lane(1, {0.66}, "one"), lane(2, {0.75}, "two")};
    const std::vector<StandardSpot> standards{{"one", "vanillin", 0.5}, {"two", "vanillin", 0.6}};
    const auto read = read_together(lanes, 0.03, standards);
    ASSERT_EQ(read.shifts.size(), 1U);
    EXPECT_EQ(read.shifts[0].shared_standards, 1U);
    EXPECT_NEAR(read.shifts[0].rm_shift, -0.17609, 1e-5);
    EXPECT_NEAR(read.fractions[1].spots[0].rf, 2.0 / 3.0, 1e-9);
    EXPECT_DOUBLE_EQ(read.fractions[0].spots[0].rf, 0.66);
}

TEST(ReadTogether, AThirdPlateIsMovedByAStandardOfTheSecondOnly) {
    const std::vector<Lane> lanes{lane(1, {0.5}, "one"), lane(2, {0.5}, "two"),
                                  lane(3, {0.5}, "three")};
    const std::vector<StandardSpot> standards{{"one", "a", 0.5},
                                              {"two", "a", 0.6},
                                              {"two", "b", 0.4},
                                              {"three", "b", 0.4},
                                              {"three", "c", 0.0}};
    const auto read = read_together(lanes, 0.03, standards);
    ASSERT_EQ(read.shifts.size(), 2U);
    // The third runs like the second, which runs by that much against the first.
    EXPECT_NEAR(read.shifts[1].rm_shift, read.shifts[0].rm_shift, 1e-12);
    EXPECT_NEAR(read.fractions[2].spots[0].rf, 0.4, 1e-9); // R_M 0 + 0.17609
}

TEST(ReadTogether, AStandardThatNoOtherPlateHasLeavesItToTheFractions) {
    const auto read = read_together({lane(1, {0.60}, "one"), lane(1, {0.65}, "two")}, 0.03,
                                    {{"one", "a", 0.5}, {"two", "b", 0.6}});
    EXPECT_EQ(read.shifts.at(0).shared_standards, 0U);
    EXPECT_NEAR(read.shifts.at(0).shift, 0.05, 1e-12);
}

TEST(ReadTogether, APlateWithoutUsableSharedFractionsIsNotCorrected) {
    const std::vector<std::vector<Lane>> cases{
        {lane(1, {0.6}, "one"), lane(2, {0.7}, "two")},
        {lane(1, {0.6}, "one"), lane(1, {0.7, 0.3}, "two"), lane(2, {0.7}, "two")}, // other count
        {lane(1, {0.0}, "one"), lane(1, {0.1}, "two"), lane(2, {0.7}, "two")},      // at the start
        {lane(1, {}, "one"), lane(1, {}, "two"), lane(2, {0.7}, "two")}};
    for (const auto &lanes : cases) {
        const auto read = read_together(lanes, 0.03);
        EXPECT_EQ(read.shifts.at(0).shared_fractions, 0U);
        EXPECT_DOUBLE_EQ(read.fractions.at(1).spots.at(0).rf, 0.7);
    }
}

TEST(ReadTogether, SpotsAtStartAndFrontAreNotMoved) {
    const auto read = read_together(
        {lane(1, {0.5}, "one"), lane(1, {0.6}, "two"), lane(2, {1.0, 0.0}, "two")}, 0.03);
    EXPECT_DOUBLE_EQ(read.fractions[1].spots[0].rf, 1.0);
    EXPECT_DOUBLE_EQ(read.fractions[1].spots[1].rf, 0.0);
}

TEST(ReadTogether, AFractionInTwoLanesOfAPlateIsOneFraction) {
    std::vector<Lane> lanes{weighed_lane(4, {{0.50, 10.0}}), weighed_lane(4, {{0.51, 20.0}})};
    lanes[1].lane = "2";
    const auto read = read_together(lanes, 0.03);
    ASSERT_EQ(read.fractions.at(0).spots.size(), 1U);
    EXPECT_NEAR(read.fractions[0].spots[0].rf, 0.505, 1e-12);
    EXPECT_DOUBLE_EQ(read.fractions[0].spots[0].intensity.value(), 15.0);
}

} // namespace
} // namespace cospot::fractions
