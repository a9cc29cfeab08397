// Sample and standard on one lane of a plate: one spot or two.
#include "evidence/cospots.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <cmath>
#include <sstream>

namespace cospot {
namespace {

/// What is found on an invented plate; `rows` without its header, front 55 mm.
std::vector<CoSpot> found_on(const std::string &rows) {
    std::istringstream in("lane,label,spot,distance_mm,front_mm,role\n" + rows);
    return cospots_of(read_plate(in, "plate.csv"), "plate.csv", 0.5);
}

constexpr const char *kAlone = "1,flask 7,a,30.1,55,sample\n"
                               "1,flask 7,b,12.0,55,sample\n"
                               "2,vanillin,a,30.4,55,standard\n";

TEST(CoSpots, OneSpotRunsTogether) {
    const auto found = found_on(std::string(kAlone) + "3,flask 7 + vanillin,a,30.2,55,cospot\n"
                                                      "3,flask 7 + vanillin,b,12.1,55,cospot\n");
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].lane, "3");
    EXPECT_EQ(found[0].sample, "flask 7");
    EXPECT_EQ(found[0].standard, "vanillin");
    EXPECT_DOUBLE_EQ(found[0].distance_mm, 30.1); // of the sample's spot on its own lane
    EXPECT_EQ(found[0].finding, CoSpotFinding::one_spot);
    EXPECT_EQ(words_of(found[0]), "co-spot of flask 7 and vanillin on lane 3: one spot; they run "
                                  "together");
}

TEST(CoSpots, TwoSpotsDiffer) {
    const auto found = found_on(std::string(kAlone) + "3,flask 7 + vanillin,a,29.0,55,cospot\n"
                                                      "3,flask 7 + vanillin,b,31.3,55,cospot\n"
                                                      "3,flask 7 + vanillin,c,12.1,55,cospot\n");
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].finding, CoSpotFinding::two_spots);
    EXPECT_NEAR(found[0].apart_mm, 2.3, 1e-9);
    EXPECT_EQ(words_of(found[0]), "co-spot of flask 7 and vanillin on lane 3: two spots, 2.3 mm "
                                  "apart; they differ");
}

TEST(CoSpots, AStandardFarFromAllSpotsOfTheSampleIsASecondSpot) {
    const auto found = found_on("1,flask 7,a,30.1,55,sample\n"
                                "2,vanillin,a,20.0,55,standard\n"
                                "3,flask 7 + vanillin,a,30.0,55,cospot\n"
                                "3,flask 7 + vanillin,b,20.2,55,cospot\n");
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].finding, CoSpotFinding::two_spots);
    EXPECT_NEAR(found[0].apart_mm, 9.8, 1e-9);
}

TEST(CoSpots, OneSpotFarFromWhereTheStandardRanAloneIsNotBoth) {
    const auto found = found_on("1,reaction,a,12.0,65,sample\n2,vanillin,a,26.0,65,standard\n"
                                "3,reaction + vanillin,a,12.0,65,cospot\n");
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].finding, CoSpotFinding::standard_missing);
    EXPECT_EQ(log_ratio_of(found[0]), 0.0);
    EXPECT_EQ(words_of(found[0]), "co-spot of reaction and vanillin on lane 3: the standard's spot "
                                  "is missing there (14.0 mm from the one spot on its own lane), "
                                  "so it can't be judged");
    // Within three standard uncertainties of the difference of two readings, 2.2 mm here.
    const auto near = found_on("1,reaction,a,12.0,65,sample\n2,vanillin,a,14.0,65,standard\n"
                               "3,reaction + vanillin,a,12.0,65,cospot\n");
    EXPECT_EQ(near.at(0).finding, CoSpotFinding::one_spot);
}

TEST(CoSpots, LanesWhoseFrontsRanDifferentlyAreCompared) {
    // The lane of the co-spot ran to 60 mm: the sample is expected at 32.8, not at 30.1.
    const auto found = found_on(std::string(kAlone) + "3,flask 7 + vanillin,a,33.0,60,cospot\n"
                                                      "3,flask 7 + vanillin,b,13.1,60,cospot\n");
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].finding, CoSpotFinding::one_spot);
}

TEST(CoSpots, AFurtherSpotIsTheStandardsIfItHasNoLane) {
    const std::string sample = "1,flask 7,a,30.1,55,sample\n";
    const auto one = found_on(sample + "2,flask 7 + vanillin,a,30.3,55,cospot\n");
    EXPECT_EQ(one.at(0).finding, CoSpotFinding::one_spot);
    const auto two = found_on(sample + "2,flask 7 + vanillin,a,30.3,55,cospot\n"
                                       "2,flask 7 + vanillin,b,18.0,55,cospot\n");
    EXPECT_EQ(two.at(0).finding, CoSpotFinding::two_spots);
}

TEST(CoSpots, SampleAndStandardOnOneLaneMakeACoSpot) {
    const auto close = found_on("1,flask 7,a,30.1,55,sample\n1,vanillin,b,31.2,55,standard\n");
    ASSERT_EQ(close.size(), 1U);
    EXPECT_EQ(close[0].finding, CoSpotFinding::one_spot); // nearer than two spots are seen apart
    const auto apart = found_on("1,flask 7,a,30.1,55,sample\n1,vanillin,b,34.0,55,standard\n");
    ASSERT_EQ(apart.size(), 1U);
    EXPECT_EQ(apart[0].finding, CoSpotFinding::two_spots);
    EXPECT_NEAR(apart[0].apart_mm, 3.9, 1e-9);
    EXPECT_TRUE(found_on("1,flask 7,a,30.1,55,sample\n2,vanillin,a,30.2,55,standard\n").empty());
}

TEST(CoSpots, RefusesACoSpotWhoseSampleHasNoOwnLane) {
    try {
        (void)found_on("2,vanillin,a,30.4,55,standard\n3,flask 8 + vanillin,a,30.2,55,cospot\n");
        FAIL() << "no error";
    } catch (const InputError &error) {
        EXPECT_EQ(error.where().line, 3U);
        EXPECT_EQ(error.where().column, "label");
        EXPECT_NE(error.found().find("flask 8"), std::string::npos) << error.what();
        EXPECT_NE(error.expected().find("a lane with the role sample"), std::string::npos);
    }
}

TEST(CoSpots, OneSpotSpeaksForTheStandardAndTwoSpeakAgainstIt) {
    CoSpot cospot;
    cospot.finding = CoSpotFinding::one_spot;
    // Seen of one compound in 98 of 100, of two at about the same height in 30.
    EXPECT_NEAR(std::exp(log_ratio_of(cospot)), 0.98 / 0.3, 1e-9);
    cospot.finding = CoSpotFinding::two_spots;
    EXPECT_NEAR(std::exp(log_ratio_of(cospot)), 0.02 / 0.7, 1e-9);
}

} // namespace
} // namespace cospot
