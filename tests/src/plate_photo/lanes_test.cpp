#include "plate_photo/lanes.h"

#include <gtest/gtest.h>

namespace cospot::plate_photo {
namespace {

Blob blob_of(double x_mm, double y_mm, double height) {
    return {.x_mm = x_mm, .y_mm = y_mm, .height = height, .width_mm = 3.0};
}

TEST(Lanes, AreWhereBlobsLieAboveOneAnother) {
    std::vector<Blob> seen;
    for (const double x : {8.0, 17.0, 26.0, 35.0}) {
        seen.push_back(blob_of(x - 0.4, 30.0, 0.3));
        seen.push_back(blob_of(x + 0.4, 60.0, 0.2));
    }
    const std::vector<LanePlace> lanes = found_lanes(seen, 50.0);
    ASSERT_EQ(lanes.size(), 4U);
    for (std::size_t i = 0; i < 4; ++i) {
        EXPECT_NEAR(lanes[i].x_mm, 8.0 + 9.0 * static_cast<double>(i), 0.3);
    }
    EXPECT_DOUBLE_EQ(lanes[0].right_mm, lanes[1].left_mm);
}

TEST(Lanes, TakeAFaintLoneBlobInAGapForNone) {
    const std::vector<Blob> seen = {blob_of(10.0, 30.0, 0.5), blob_of(20.0, 30.0, 0.5),
                                    blob_of(30.0, 30.0, 0.5), blob_of(25.0, 70.0, 0.03)};
    EXPECT_EQ(found_lanes(seen, 50.0).size(), 3U);
}

TEST(Lanes, OfFaintSpotsAloneAreLanesAsWell) {
    const std::vector<Blob> seen = {blob_of(10.0, 30.0, 0.05), blob_of(20.0, 31.0, 0.04),
                                    blob_of(30.0, 30.0, 0.05)};
    EXPECT_EQ(found_lanes(seen, 50.0).size(), 3U);
}

TEST(Lanes, ThatAreGivenStayAsTheyAre) {
    const std::vector<LanePlace> lanes = lanes_at({30.0, 10.0}, 50.0, 5.0);
    ASSERT_EQ(lanes.size(), 2U);
    EXPECT_DOUBLE_EQ(lanes[0].x_mm, 10.0);
    EXPECT_DOUBLE_EQ(lanes[0].left_mm, 0.0);
    EXPECT_DOUBLE_EQ(lanes[0].right_mm, 20.0);
    EXPECT_DOUBLE_EQ(lanes[1].right_mm, 40.0);
}

TEST(Lanes, AreNoneWithoutBlobs) {
    EXPECT_TRUE(found_lanes({}, 50.0).empty());
}

TEST(Blobs, LeaveOutWhatCoversTheEdgeOfThePlate) {
    Field signal = empty_field(200, 200, 4.0);
    for (int y = 80; y < 110; ++y) {
        for (int x = 0; x < 25; ++x) {
            signal.at(x, y) = 0.5F;
        }
        for (int x = 100; x < 110; ++x) {
            signal.at(x, y) = 0.2F;
        }
    }
    const std::vector<Blob> seen = blobs(signal, 0.03, 2.0, 48.0, 16.0);
    ASSERT_EQ(seen.size(), 1U);
    EXPECT_NEAR(seen[0].x_mm, 26.25, 0.01);
}

} // namespace
} // namespace cospot::plate_photo
