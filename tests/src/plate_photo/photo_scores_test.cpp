#include "photo_scores.h"

#include <gtest/gtest.h>

namespace cospot::rendering {
namespace {

using plate_photo::FoundLane;
using plate_photo::FoundPlate;
using plate_photo::FoundSpot;

/// Two lanes: spots at R_F 0.2 and 0.6, and a faint one at 0.8 in the second.
Chromatogram invented_truth() {
    Chromatogram truth;
    truth.size = {40.0, 100.0};
    truth.start.line = {10.0, 10.0, 10.0};
    truth.start.visible = true;
    truth.front.line = {90.0, 90.0, 90.0};
    truth.lanes_mm = {10.0, 30.0};
    const auto add = [&](std::size_t lane, double rf, double contrast) {
        TrueSpot spot;
        spot.lane = lane;
        spot.rf = rf;
        spot.contrast = contrast;
        spot.visibility = 20.0;
        spot.shape.x_mm = truth.lanes_mm[lane];
        spot.shape.y_mm = 10.0 + 80.0 * rf;
        truth.spots.push_back(spot);
    };
    add(0, 0.2, 0.3);
    add(1, 0.6, 0.3);
    add(1, 0.8, 0.02);
    return truth;
}

FoundSpot spot_at(double x, double y) {
    FoundSpot spot;
    spot.x_mm = x;
    spot.y_mm = y;
    spot.uncertainty_mm = 0.2;
    return spot;
}

FoundPlate invented_answer(std::vector<FoundSpot> first, std::vector<FoundSpot> second) {
    FoundPlate found;
    found.start = {10.0, 10.0, 10.0, 0.1, false};
    found.front = {90.0, 90.0, 90.0, 0.1, false};
    found.lanes = {FoundLane{10.0, 5.0, 15.0, std::move(first)},
                   FoundLane{30.0, 25.0, 35.0, std::move(second)}};
    return found;
}

TEST(PhotoScores, CountsWhatIsFoundMissedAndFalse) {
    SpotTally tally;
    count_spots(invented_answer({spot_at(10.0, 26.4), spot_at(10.0, 45.0)}, {}), invented_truth(),
                tally);
    EXPECT_EQ(tally.asked.all, 2U);
    EXPECT_EQ(tally.asked.part, 1U);
    EXPECT_EQ(tally.falsely.all, 2U);
    EXPECT_EQ(tally.falsely.part, 1U);
    ASSERT_EQ(tally.rf_errors.size(), 1U);
    EXPECT_NEAR(tally.rf_errors[0], 0.4 / 80.0, 1e-12);
    EXPECT_EQ(tally.covered.part, 1U);
}

TEST(PhotoScores, TakesAFaintSpotNeitherForAskedForNorForFalse) {
    SpotTally tally;
    count_spots(invented_answer({}, {spot_at(30.0, 74.0)}), invented_truth(), tally);
    EXPECT_EQ(tally.asked.part, 0U);
    EXPECT_EQ(tally.faint.part, 1U);
    EXPECT_EQ(tally.falsely.part, 0U);
}

TEST(PhotoScores, AsksForNoSpotThatDrownsInNoise) {
    Chromatogram truth = invented_truth();
    truth.spots[0].visibility = 2.0;
    SpotTally tally;
    count_spots(invented_answer({spot_at(10.0, 26.0)}, {}), truth, tally);
    EXPECT_EQ(tally.asked.all, 1U);
    EXPECT_EQ(tally.drowned.part, 1U);
    EXPECT_EQ(tally.falsely.part, 0U);
}

TEST(PhotoScores, CountsASecondSpotOnATrueOneAsFalse) {
    SpotTally tally;
    count_spots(invented_answer({spot_at(10.0, 26.0), spot_at(10.0, 26.6)}, {}), invented_truth(),
                tally);
    EXPECT_EQ(tally.asked.part, 1U);
    EXPECT_EQ(tally.falsely.part, 1U);
}

TEST(PhotoScores, ToleratesSpotsInAStreak) {
    Chromatogram truth = invented_truth();
    truth.streaks.push_back({10.0, 10.0, 50.0, 2.0, 0.1});
    SpotTally tally;
    count_spots(invented_answer({spot_at(10.0, 45.0)}, {}), truth, tally);
    EXPECT_EQ(tally.falsely.part, 0U);
}

// u(R_F) by the law of propagation, by hand: at R_F 0.5 over 80 mm with u 0.2, 0.1 and 0.1 mm it is
// sqrt(0.04 + 0.0025 + 0.0025) / 80.
TEST(PhotoScores, PropagatesTheStatedUncertainties) {
    const FoundPlate found = invented_answer({spot_at(10.0, 50.0)}, {});
    const auto reading = reading_of(found, found.lanes[0].spots[0], 40.0);
    ASSERT_TRUE(reading.has_value());
    EXPECT_DOUBLE_EQ(reading->rf, 0.5);
    EXPECT_NEAR(reading->uncertainty, 0.21213 / 80.0, 1e-7);
}

TEST(PhotoScores, CountsAMissedLaneAndOneThatIsNone) {
    FoundPlate found = invented_answer({}, {});
    found.lanes[1].x_mm = 20.0;
    LaneTally tally;
    count_lanes(found, invented_truth(), tally);
    EXPECT_EQ(tally.lanes.part, 1U);
    EXPECT_EQ(tally.lanes.all, 3U);
    EXPECT_EQ(tally.plates.part, 0U);
}

TEST(PhotoScores, TellsRightLinesFromWrongOnesAndFromThoseThatNobodySees) {
    const Chromatogram truth = invented_truth();
    LineTally start;
    count_line(plate_photo::PlateLine{10.3, 10.2, 10.4}, truth.start, 50.0, start);
    count_line(plate_photo::PlateLine{10.3, 11.2, 10.4}, truth.start, 50.0, start);
    count_line(std::nullopt, truth.start, 50.0, start);
    EXPECT_EQ(start.seen.part, 2U);
    EXPECT_EQ(start.right.part, 1U);
    EXPECT_EQ(start.right.all, 3U);
    LineTally front;
    count_line(plate_photo::PlateLine{90.0, 90.0, 90.0}, truth.front, 50.0, front);
    EXPECT_EQ(front.false_ones.part, 1U);
    EXPECT_EQ(front.seen.all, 0U);
}

TEST(PhotoScores, CallsCornersWrongWhereOneIsFarOff) {
    RenderedPlate plate;
    plate.truth.size = {60.0, 80.0}; // 1.2 mm are allowed
    plate.pixels_per_mm = 5.0;
    plate.corners = {{{0, 0}, {300, 0}, {300, 400}, {0, 400}}};
    plate_photo::Corners found = plate.corners;
    found[2].x += 4.0;
    EXPECT_EQ(score_corners(found, plate).verdict, CornerVerdict::right);
    EXPECT_DOUBLE_EQ(score_corners(found, plate).mean_mm, 0.2);
    found[2].x += 3.0;
    EXPECT_EQ(score_corners(found, plate).verdict, CornerVerdict::wrong);
    EXPECT_EQ(score_corners(std::nullopt, plate).verdict, CornerVerdict::asked_for);
}

} // namespace
} // namespace cospot::rendering
