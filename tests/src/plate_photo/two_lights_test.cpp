// Two photos of one plate laid over each other. All places are invented.
#include "plate_photo/two_lights.h"

#include <gtest/gtest.h>

#include <stdexcept>

namespace cospot::plate_photo {
namespace {

FoundSpot spot_at(double y_mm, double half_mm = 2.0) {
    FoundSpot spot;
    spot.y_mm = y_mm;
    spot.low_mm = y_mm - half_mm;
    spot.high_mm = y_mm + half_mm;
    return spot;
}

FoundLane lane_at(double x_mm, std::vector<FoundSpot> spots = {}) {
    FoundLane lane;
    lane.x_mm = x_mm;
    lane.spots = std::move(spots);
    return lane;
}

FoundPlate plate_with(std::vector<FoundLane> lanes) {
    FoundPlate plate;
    plate.lanes = std::move(lanes);
    return plate;
}

TEST(TwoLights, LanesThatOnePhotoAloneShowsAreLanes) {
    const FoundPlate lamp = plate_with({lane_at(10), lane_at(30)});
    const FoundPlate stain = plate_with({lane_at(10.5), lane_at(20), lane_at(29.5)});
    EXPECT_EQ(lanes_of_both(lamp, stain), (std::vector<double>{10, 20, 30}));
    EXPECT_EQ(lanes_of_both(plate_with({lane_at(10)}), plate_with({lane_at(13)})),
              std::vector<double>{10});
    EXPECT_EQ(lanes_of_both(plate_with({}), stain), (std::vector<double>{10.5, 20, 29.5}));
}

TEST(TwoLights, TellsWhichSpotsShowWhere) {
    const FoundPlate lamp = plate_with({lane_at(10, {spot_at(20), spot_at(50)})});
    const FoundPlate stain = plate_with({lane_at(10, {spot_at(21), spot_at(35)})});
    const auto spots = laid_over(lamp, stain);
    ASSERT_EQ(spots.size(), 3U);
    EXPECT_EQ(spots[0].first, 0U);
    EXPECT_EQ(spots[0].second, 0U);
    EXPECT_EQ(spots[1].first, 1U);
    EXPECT_FALSE(spots[1].second);
    EXPECT_FALSE(spots[2].first);
    EXPECT_EQ(spots[2].second, 1U);
}

TEST(TwoLights, OfSeveralSpotsTheNearestAreTheSame) {
    const FoundPlate lamp = plate_with({lane_at(10, {spot_at(20, 4), spot_at(23, 4)})});
    const FoundPlate stain = plate_with({lane_at(10, {spot_at(22.5, 4)})});
    const auto spots = laid_over(lamp, stain);
    ASSERT_EQ(spots.size(), 2U);
    EXPECT_EQ(spots[0].first, 1U);
    EXPECT_EQ(spots[1].first, 0U);
    EXPECT_FALSE(spots[1].second);
}

TEST(TwoLights, SpotsOfOtherLanesAreNeverTheSame) {
    const FoundPlate lamp = plate_with({lane_at(10, {spot_at(20)}), lane_at(20)});
    const FoundPlate stain = plate_with({lane_at(10), lane_at(20, {spot_at(20)})});
    EXPECT_EQ(laid_over(lamp, stain).size(), 2U);
    EXPECT_THROW((void)laid_over(lamp, plate_with({lane_at(10)})), std::logic_error);
}

} // namespace
} // namespace cospot::plate_photo
