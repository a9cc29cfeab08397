#include "plate_photo/two_lights.h"

#include <gtest/gtest.h>

namespace cospot::plate_photo {
namespace {

FoundSpot spot_at(double y_mm) {
    FoundSpot spot;
    spot.y_mm = y_mm;
    spot.uncertainty_mm = 0.2;
    return spot;
}

FoundLane lane_at(double x_mm, const std::vector<double> &y_mm) {
    FoundLane lane{.x_mm = x_mm, .left_mm = x_mm - 4.0, .right_mm = x_mm + 4.0, .spots = {}};
    for (const double y : y_mm) {
        lane.spots.push_back(spot_at(y));
    }
    return lane;
}

TEST(TwoLights, PairsSpotsThatLieOverEachOther) {
    FoundPlate first;
    first.lanes = {lane_at(10.0, {20.0, 40.0})};
    FoundPlate second;
    second.lanes = {lane_at(10.4, {40.3})};
    const TwoLights both = laid_over(first, second);
    ASSERT_EQ(both.lanes.size(), 1U);
    ASSERT_EQ(both.spots.size(), 2U);
    EXPECT_FALSE(both.spots[0].in_second);
    EXPECT_DOUBLE_EQ(both.spots[1].in_first->y_mm, 40.0);
    EXPECT_DOUBLE_EQ(both.spots[1].in_second->y_mm, 40.3);
}

TEST(TwoLights, KeepsSpotsApartThatLieFartherThanTheyAreUncertain) {
    FoundPlate first;
    first.lanes = {lane_at(10.0, {40.0})};
    FoundPlate second;
    second.lanes = {lane_at(10.0, {42.0})};
    const TwoLights both = laid_over(first, second);
    ASSERT_EQ(both.spots.size(), 2U);
    EXPECT_FALSE(both.spots[0].in_second);
    EXPECT_FALSE(both.spots[1].in_first);
}

TEST(TwoLights, GivesEachSpotToItsNearest) {
    FoundPlate first;
    first.lanes = {lane_at(10.0, {40.0, 40.6})};
    FoundPlate second;
    second.lanes = {lane_at(10.0, {40.5})};
    const TwoLights both = laid_over(first, second);
    ASSERT_EQ(both.spots.size(), 2U);
    EXPECT_FALSE(both.spots[0].in_second);
    EXPECT_TRUE(both.spots[1].in_second);
}

TEST(TwoLights, KeepsLanesThatOnePhotoAloneShows) {
    FoundPlate first;
    first.lanes = {lane_at(30.0, {40.0})};
    FoundPlate second;
    second.lanes = {lane_at(10.0, {20.0}), lane_at(30.2, {40.0})};
    const TwoLights both = laid_over(first, second);
    ASSERT_EQ(both.lanes.size(), 2U);
    EXPECT_FALSE(both.lanes[0].in_first);
    EXPECT_EQ(both.lanes[1].in_second, 1U);
    ASSERT_EQ(both.spots.size(), 2U);
    EXPECT_EQ(both.spots[1].lane, 1U);
    EXPECT_TRUE(both.spots[1].in_first && both.spots[1].in_second);
}

} // namespace
} // namespace cospot::plate_photo
