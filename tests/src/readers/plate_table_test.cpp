// Plates as people write them down. All values are invented.
#include "readers/plate_table.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <sstream>
#include <string>
#include <vector>

namespace cospot {
namespace {

struct ReadPlate {
    std::vector<PlateSpot> spots;
    std::vector<std::string> notes;
    std::string fault;
};

ReadPlate read(const std::string &text, const TableForm &form = {}) {
    std::istringstream in(text);
    ReadPlate result;
    try {
        result.spots = read_plate(in, "plate.csv", form, &result.notes);
    } catch (const InputError &error) {
        result.fault = error.what();
    }
    return result;
}

using Texts = std::vector<std::string>;

Texts labels_of(const ReadPlate &plate) {
    Texts labels;
    for (const PlateSpot &spot : plate.spots) {
        labels.push_back(spot.plate + "/" + spot.lane + "/" + spot.label + "/" + spot.spot);
    }
    return labels;
}

TEST(PlateTable, AnEmptyCellMeansTheOneAboveIt) {
    const ReadPlate plate = read("plate,lane,label,distance_mm,front_mm\n"
                                 "A,1,x,10,70\n,,,20,\n,2,,30,\n,3,y,40,\nB,1,,50,80\n");
    EXPECT_EQ(plate.fault, "");
    // A new lane ends the label, a new plate the lane.
    EXPECT_EQ(labels_of(plate), (Texts{"A/1/x/1", "A/1/x/2", "A/2//1", "A/3/y/1", "B/1//1"}));
    EXPECT_EQ(plate.notes, Texts{"an empty cell of column plate or lane or label is read as the "
                                 "one above it (lines 3, 4 and 5)"});
    EXPECT_NE(read("plate,lane,distance_mm,front_mm\nA,1,10,70\nB,,20,70\n")
                  .fault.find("plate.csv:3, column lane: found nothing"),
              std::string::npos);
}

TEST(PlateTable, ALaneThatComesAgainIsNotMergedWithThePlateAbove) {
    const ReadPlate plate = read("plate,lane,distance_mm,front_mm\nA,1,10,70\n,2,20,\n,1,30,\n");
    EXPECT_NE(plate.fault.find("plate.csv:4, column plate: found nothing, and lane \"1\" again"),
              std::string::npos)
        << plate.fault;
}

TEST(PlateTable, ALabelFromAboveBringsItsRole) {
    const ReadPlate plate = read("lane,label,role,distance_mm,front_mm\n"
                                 "1,x + vanillin,cospot,10,70\n1,,,20,\n"
                                 "2,,standard,30,\n");
    EXPECT_NE(plate.fault.find("plate.csv:4, column label: found nothing; expected the name of the "
                               "standard's compound"),
              std::string::npos)
        << plate.fault;
    EXPECT_EQ(plate.fault.find("plate.csv:3"), std::string::npos) << plate.fault;
    // Another role is another label.
    const ReadPlate other = read("lane,label,role,distance_mm,front_mm\n1,x,sample,10,70\n"
                                 "1,,standard,20,\n");
    EXPECT_NE(other.fault.find("plate.csv:3, column label"), std::string::npos) << other.fault;
}

TEST(PlateTable, ARowWithoutADistanceIsALaneWithoutASpot) {
    const ReadPlate plate = read("lane;label;distance_mm;front_mm\n1;x;-;70\n2;y;21,0;\n3;z;;\n"
                                 "4;w;–;\n5;v;14,0;\n");
    EXPECT_EQ(plate.fault, "");
    EXPECT_EQ(labels_of(plate), (Texts{"/2/y/1", "/5/v/1"}));
    EXPECT_EQ(plate.spots[0].front_mm, 70.0) << "the front of the row without a spot";
    ASSERT_FALSE(plate.notes.empty());
    EXPECT_EQ(plate.notes.back(), "a row without a spot, in column distance_mm, is left out "
                                  "(lines 2, 4 and 5)");
    EXPECT_NE(read("lane,distance_mm,front_mm\n1,-,70\n").fault.find("no spot in any row"),
              std::string::npos);
}

TEST(PlateTable, ARoughReadingCountsWithTwiceTheUncertainty) {
    const ReadPlate plate = read("lane;distance_mm;front_mm;uncertainty\n1;20;70;\n2;ca. 20;70;\n"
                                 "3;~20;70;\n4;approx. 20;70;0,01\n");
    ASSERT_EQ(plate.spots.size(), 4U) << plate.fault;
    const double usual = rf_of(plate.spots[0], 0.5).standard_uncertainty;
    EXPECT_EQ(rf_of(plate.spots[1], 0.5).value, rf_of(plate.spots[0], 0.5).value);
    EXPECT_DOUBLE_EQ(rf_of(plate.spots[1], 0.5).standard_uncertainty, 2.0 * usual);
    EXPECT_DOUBLE_EQ(rf_of(plate.spots[2], 0.5).standard_uncertainty, 2.0 * usual);
    EXPECT_EQ(rf_of(plate.spots[3], 0.5).standard_uncertainty, 0.01); // as stated
    EXPECT_NE(plate.notes.back().find("twice the usual uncertainty"), std::string::npos)
        << plate.notes.back();
    EXPECT_NE(plate.notes.back().find("(lines 3, 4 and 5)"), std::string::npos)
        << plate.notes.back();
    const ReadPlate noted = read("lane,Rf\n1,ca. 0.30\n");
    ASSERT_EQ(noted.spots.size(), 1U) << noted.fault;
    EXPECT_EQ(rf_of(noted.spots[0], 0.5).standard_uncertainty, 0.02);
    EXPECT_NE(read("lane,distance_mm,front_mm\n1,ca. x,70\n").fault.find("\"ca. x\""),
              std::string::npos);
}

TEST(PlateTable, ARowWithoutASpotIsToldWithWhatStandsBesideIt) {
    const ReadPlate plate = read("plate,lane,distance_mm,front_mm,remark\nA,1,20,70,\n"
                                 "A,RM,-,,no SM left\n");
    EXPECT_NE(plate.notes.back().find("(line 3); lane RM of plate A: \"no SM left\""),
              std::string::npos)
        << plate.notes.back();
}

TEST(PlateTable, CrossesOfAnyStrengthAreYes) {
    const ReadPlate plate =
        read("lane,distance_mm,front_mm,UV 254\n1,20,70,++\n2,20,70,(+)\n3,20,70,+++\n4,20,70,-\n");
    ASSERT_EQ(plate.spots.size(), 4U) << plate.fault;
    EXPECT_EQ(plate.spots[0].further.uv254, true);
    EXPECT_EQ(plate.spots[1].further.uv254, true);
    EXPECT_EQ(plate.spots[2].further.uv254, true);
    EXPECT_EQ(plate.spots[3].further.uv254, false);
}

TEST(PlateTable, ARowWithoutASpotIsNamedWithItsFirstLines) {
    std::string text = "lane,distance_mm,front_mm\n1,20,70\n";
    for (int lane = 2; lane < 10; ++lane) {
        text += std::to_string(lane) + ",,\n";
    }
    EXPECT_NE(read(text).notes.back().find("(lines 3, 4, 5, 6, 7 and 3 more)"), std::string::npos);
}

TEST(PlateTable, RfMayBeNotedInsteadOfDistances) {
    const ReadPlate plate = read("lane,label,Rf,uncertainty\n1,x,0.30,\n2,y,0.5,0.02\n");
    ASSERT_EQ(plate.spots.size(), 2U) << plate.fault;
    const quantities::Uncertain first = rf_of(plate.spots[0], 0.5);
    EXPECT_EQ(first.value, 0.30);
    EXPECT_EQ(first.standard_uncertainty, 0.01);
    EXPECT_EQ(rf_of(plate.spots[1], 0.5).standard_uncertainty, 0.02);
    const ReadPlate hundredfold = read("lane,hRf\n1,30\n");
    ASSERT_EQ(hundredfold.spots.size(), 1U) << hundredfold.fault;
    EXPECT_NEAR(rf_of(hundredfold.spots[0], 0.5).value, 0.30, 1e-12);
    EXPECT_NE(read("lane,Rf\n1,30\n")
                  .fault.find("plate.csv:2, column Rf: found 30; expected R_F "
                              "from 0 to 1"),
              std::string::npos);
    EXPECT_NE(read("lane,hRf\n1,130\n").fault.find("hR_F from 0 to 100"), std::string::npos);
}

TEST(PlateTable, DistancesCountWhereRfStandsBesideThem) {
    const ReadPlate plate = read("lane,distance_mm,front_mm,Rf\n1,21,70,0.99\n");
    ASSERT_EQ(plate.spots.size(), 1U) << plate.fault;
    EXPECT_NEAR(rf_of(plate.spots[0], 0.5).value, 0.30, 1e-12);
    EXPECT_EQ(plate.notes, Texts{"column Rf is not used: the places of the spots stand in column "
                                 "distance_mm"});
}

TEST(PlateTable, LanesWithLabelsThatAreGivenAreStandards) {
    const std::string text = "lane,label,distance_mm,front_mm\n1,Vanillin,10,70\n"
                             "2,\"1,2-diol\",20,\n3,x,30,\n";
    const ReadPlate plate = read(text, {.standards = {"vanillin,anisole", "1,2-diol"}});
    ASSERT_EQ(plate.spots.size(), 3U) << plate.fault;
    EXPECT_EQ(plate.spots[0].role, RowRole::standard);
    EXPECT_EQ(plate.spots[1].role, RowRole::standard);
    EXPECT_EQ(plate.spots[2].role, RowRole::sample);
    EXPECT_EQ(plate.notes, Texts{"--standards: no lane is labelled \"anisole\""});
}

TEST(PlateTable, CrossesAndDashesAreYesAndNo) {
    const ReadPlate plate = read("lane,distance_mm,front_mm,uv254,stain,stained\n"
                                 "1,10,70,x,-,-\n2,20,,-,ninhydrin,+\n3,30,,,ninhydrin,-\n"
                                 "4,40,,n/a,,\n");
    ASSERT_EQ(plate.spots.size(), 4U) << plate.fault;
    EXPECT_EQ(plate.spots[0].further.uv254, true);
    EXPECT_TRUE(plate.spots[0].further.stains.empty());
    EXPECT_EQ(plate.spots[1].further.uv254, false);
    ASSERT_EQ(plate.spots[1].further.stains.size(), 1U);
    EXPECT_TRUE(plate.spots[1].further.stains[0].stained);
    EXPECT_FALSE(plate.spots[2].further.stains.at(0).stained);
    EXPECT_EQ(plate.spots[3].further.uv254, std::nullopt);
}

} // namespace
} // namespace cospot
