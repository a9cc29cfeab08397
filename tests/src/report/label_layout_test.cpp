#include "drawing/label_layout.h"

#include "drawing/chromatogram_picture.h"
#include "drawing/plate_picture.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace cospot {
namespace {

void expect_no_overlap(const std::vector<LabelBox> &boxes) {
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        for (std::size_t j = i + 1; j < boxes.size(); ++j) {
            EXPECT_FALSE(overlap(boxes[i], boxes[j])) << boxes[i].text << " and " << boxes[j].text;
        }
    }
}

TEST(SpreadApart, LeavesAloneWhatHasRoom) {
    EXPECT_EQ(spread_apart({50, 10, 90}, 13, 0, 100), (std::vector<double>{50, 10, 90}));
}

TEST(SpreadApart, MovesNeighboursEquallyFar) {
    EXPECT_EQ(spread_apart({50, 52}, 10, 0, 100), (std::vector<double>{46, 56}));
}

TEST(SpreadApart, KeepsInsideItsEnds) {
    const auto places = spread_apart({98, 99, 100, 1, 2}, 10, 0, 100);
    EXPECT_EQ(places, (std::vector<double>{80, 90, 100, 0, 10}));
}

TEST(SpreadApart, KeepsDistancesInACrowd) {
    std::mt19937 engine(5);
    std::uniform_real_distribution<double> place(0, 300);
    std::vector<double> wanted(20);
    for (double &one : wanted) {
        one = place(engine);
    }
    auto places = spread_apart(wanted, 13, 0, 300);
    std::sort(places.begin(), places.end());
    for (std::size_t i = 1; i < places.size(); ++i) {
        EXPECT_GE(places[i] - places[i - 1], 13 - 1e-9);
    }
    EXPECT_GE(places.front(), 0);
    EXPECT_LE(places.back(), 300 + 1e-9);
}

TEST(PlatePicture, LabelsOfTwelveCrowdedLanesDoNotOverlap) {
    std::vector<DrawnSpot> spots;
    for (int lane = 1; lane <= 12; ++lane) {
        for (int spot = 0; spot < 9; ++spot) {
            // Three groups of three that all but touch, in lanes with long numbers.
            const double distance_mm = 20.0 * (spot / 3) + 0.4 * (spot % 3) + 5.0;
            spots.push_back({std::to_string(100 + 9 * lane + spot), std::to_string(lane), "",
                             distance_mm, 70.0, SpotKind::listed});
        }
    }
    const auto labels = spot_labels(spots);
    ASSERT_EQ(labels.size(), spots.size());
    expect_no_overlap(labels);
}

std::vector<DrawnPeak> many_peaks(int count) {
    std::mt19937 engine(3);
    std::uniform_real_distribution<double> time_min(3.0, 42.0);
    std::lognormal_distribution<double> area(8.0, 1.5);
    std::vector<DrawnPeak> peaks;
    for (int i = 1; i <= count; ++i) {
        DrawnPeak peak;
        peak.key = std::to_string(i);
        peak.retention_time_min = time_min(engine);
        peak.area = area(engine);
        peak.width_half_min = 0.05;
        peaks.push_back(peak);
    }
    return peaks;
}

TEST(ChromatogramPicture, LabelsOf150PeaksDoNotOverlap) {
    const ChromatogramPicture picture = chromatogram_picture(many_peaks(150), "run");
    EXPECT_GT(picture.labels.size(), 75U);
    expect_no_overlap(picture.labels);
}

TEST(ChromatogramPicture, SaysHowManyPeaksHaveRoomForTheirNumber) {
    const ChromatogramPicture picture = chromatogram_picture(many_peaks(800), "run");
    ASSERT_LT(picture.labels.size(), 800U);
    EXPECT_NE(picture.caption.find(std::to_string(picture.labels.size()) + " of 800 peaks"),
              std::string::npos)
        << picture.caption;
}

const IsBlocked kNothing = [](const LabelBox & /*place*/) { return false; };

TEST(PlaceAbove, GivesRoomToTheMostImportantFirst) {
    const auto placed =
        place_above({{"small", 50, 100, 1}, {"large", 50, 100, 2}}, 0, 100, 80, kNothing);
    ASSERT_EQ(placed.size(), 1U); // one level fits below y = 80
    EXPECT_EQ(placed[0].box.text, "large");
}

TEST(PlaceAbove, RaisesALabelAboveWhatBlocksIt) {
    const auto placed = place_above({{"peak", 50, 100, 1}}, 0, 100, 0, [](const LabelBox &place) {
        return place.y + place.height > 70;
    });
    ASSERT_EQ(placed.size(), 1U);
    EXPECT_TRUE(placed[0].is_raised);
    EXPECT_LE(placed[0].box.y + placed[0].box.height, 70);
}

} // namespace
} // namespace cospot
