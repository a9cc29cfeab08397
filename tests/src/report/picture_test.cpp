// The pictures are well-formed XML, and say what they show.
#include "audit/replicate_picture.h"
#include "document/html.h"
#include "drawing/axis_ticks.h"
#include "drawing/boiling_axis.h"
#include "drawing/chromatogram_picture.h"
#include "drawing/distillation_picture.h"
#include "drawing/index_axis.h"
#include "drawing/plate_picture.h"
#include "drawing/probability_bars.h"
#include "drawing/range_picture.h"
#include "drawing/reliability_picture.h"
#include "drawing/trace_picture.h"
#include "drawing/trend_picture.h"
#include "drawing/window_diagram.h"
#include "drawing/window_diagram_text.h"

#include <boost/property_tree/xml_parser.hpp>
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <sstream>

namespace cospot {
namespace {

using boost::property_tree::ptree;

/// Throws where the picture is no well-formed XML.
ptree parsed(const std::string &svg) {
    std::istringstream in(svg);
    ptree tree;
    boost::property_tree::read_xml(in, tree);
    return tree;
}

constexpr const char *kHostileText = "<&\"'>]]>";

TEST(Pictures, AreWellFormedWhateverTheNames) {
    const std::vector<std::string> pictures{
        plate_picture({{"1", kHostileText, kHostileText, 10, 70, SpotKind::listed},
                       {"a", "2", kHostileText, 0, 70.5, SpotKind::standard},
                       {"2", "2", kHostileText, 70.5, 70.5, SpotKind::unlisted}},
                      kHostileText),
        chromatogram_picture(
            {{.key = kHostileText, .title = kHostileText, .retention_time_min = 2}}, kHostileText)
            .svg,
        trace_picture({{0, 1, 2, 3}, {1, 5, 2, 1}, {1, 1, 1, 1}, kHostileText},
                      {{.key = kHostileText,
                        .title = kHostileText,
                        .retention_time_min = 1,
                        .start_min = 0,
                        .end_min = 2}},
                      kHostileText, {})
            .svg,
        probability_bar({{kHostileText, 0.5}}, 0.2, 0.3, kHostileText),
        reliability_picture({{0.1, 0.2, 5}}, {{0.1, 0.1, 5}, {1.0, 1.0, 3}}, kHostileText),
        replicate_picture(
            {{"1", kHostileText, "", 0.3, true}, {"2", kHostileText, "2025", 0.3, false}},
            kHostileText, kHostileText),
        range_picture({0.1, 0.2, 0.3}, {0, 1, 1}, kHostileText),
        trend_picture({kHostileText, kHostileText, {{kHostileText, 0.2, true}, {"b", {}}}, 0.1}),
        distillation_picture({{"5", 5, 174}, {"50", 50, 216}}, 2, 0, kHostileText)};
    for (const std::string &picture : pictures) {
        ASSERT_NO_THROW(parsed(picture)) << picture;
        const ptree svg = parsed(picture).get_child("svg");
        EXPECT_EQ(svg.get<std::string>("<xmlattr>.role"), "img");
        EXPECT_FALSE(svg.get<std::string>("title").empty());
        EXPECT_FALSE(svg.get<std::string>("desc").empty());
    }
}

/// Middle of the ellipse of the mark with that key.
double middle_y(const std::string &svg, const std::string &key) {
    const ptree tree = parsed(svg);
    for (const auto &[name, child] : tree.get_child("svg")) {
        if (name == "g" && child.get<std::string>("<xmlattr>.data-key", "") == key) {
            return child.get<double>("ellipse.<xmlattr>.cy");
        }
    }
    ADD_FAILURE() << "no mark " << key;
    return 0.0;
}

TEST(PlatePicture, IsToScale) {
    const std::string svg = plate_picture({{"1", "1", "", 0, 80, SpotKind::listed},
                                           {"2", "1", "", 20, 80, SpotKind::listed},
                                           {"3", "2", "", 60, 80, SpotKind::listed}},
                                          "plate");
    const double start = middle_y(svg, "1");
    EXPECT_NEAR((start - middle_y(svg, "3")) / (start - middle_y(svg, "2")), 3.0, 1e-3);
}

TEST(ChromatogramPicture, SaysWhatShapesRestOn) {
    DrawnPeak peak{.key = "1", .title = "", .retention_time_min = 2};
    EXPECT_NE(chromatogram_picture({peak}, "").caption.find("nominal width"), std::string::npos);
    peak.start_min = 1.9;
    peak.end_min = 2.2;
    peak.area = 5;
    EXPECT_NE(chromatogram_picture({peak}, "").caption.find("between start and end"),
              std::string::npos);
    peak.width_half_min = 0.1;
    EXPECT_NE(chromatogram_picture({peak}, "")
                  .caption.find("widths at half height, as high as "
                                "area and width"),
              std::string::npos);
    peak.height = 7;
    EXPECT_NE(chromatogram_picture({peak}, "").caption.find("as high as their heights"),
              std::string::npos);
}

TEST(ChromatogramPicture, TakesNoHarmFromPeaksWithoutArea) {
    const DrawnPeak peak{.key = "1", .title = "", .retention_time_min = 2, .area = 0.0};
    EXPECT_EQ(chromatogram_picture({peak, peak}, "").svg.find("nan"), std::string::npos);
}

// vandendool1963, formula read: with a linear programme the index is linear in time between
// members, so peaks on a line must give ticks on that line.
TEST(IndexAxis, InterpolatesALineExactly) {
    const auto ticks = index_ticks({{4, 850}, {5, 950}, {6, 1050}, {8, 1250}}, 20);
    ASSERT_EQ(ticks.size(), 4U);
    for (std::size_t i = 0; i < ticks.size(); ++i) {
        EXPECT_EQ(ticks[i].value, 900.0 + 100.0 * static_cast<double>(i));
        EXPECT_NEAR(ticks[i].retention_time_min, 4.5 + static_cast<double>(i), 1e-9);
    }
}

TEST(IndexAxis, NeverGoesBeyondThePeaks) {
    for (const TimeTick &tick : index_ticks({{4, 801}, {5, 930}, {7, 1040}, {12, 1199}}, 20)) {
        EXPECT_GT(tick.retention_time_min, 4.0);
        EXPECT_LT(tick.retention_time_min, 12.0);
    }
    EXPECT_TRUE(index_ticks({{4, 801}, {5, 930}, {7, 1040}}, 20).empty());           // too few
    EXPECT_TRUE(index_ticks({{4, 801}, {5, 930}, {7, 900}, {8, 1000}}, 20).empty()); // falls
}

TEST(IndexAxis, HasNoMoreTicksThanAsked) {
    EXPECT_LE(index_ticks({{4, 801}, {5, 1930}, {7, 2040}, {12, 3199}}, 5).size(), 6U);
}

/// Thirty pairs, each critical at two fractions, but for the last, which is so at one: the best.
DrawnWindowDiagram crowded_diagram() {
    DrawnWindowDiagram map;
    map.modifier = kHostileText;
    for (int i = 0; i < 59; ++i) {
        map.points.push_back({0.2 + 0.005 * i, 1.0, fmt::format("a{0} / b{0}", i / 2), i < 9});
    }
    map.points.back().resolution = 2.0;
    map.best = map.points.size() - 1;
    map.readings = {0.2, 0.45};
    return map;
}

TEST(WindowDiagram, NamesTheBestPairAndNumbersOnlyWhatItNames) {
    for (const PictureFrame frame : {PictureFrame::page, PictureFrame::alone}) {
        const std::string svg = window_diagram_picture(crowded_diagram(), frame);
        EXPECT_EQ(parsed(svg).get<std::string>("svg.<xmlattr>.role"), "img");
        EXPECT_NE(svg.find("pair 12: a29 / b29"), std::string::npos);
        EXPECT_EQ(svg.find("pair 13"), std::string::npos);
        EXPECT_NE(svg.find("and 18 further pairs"), std::string::npos);
        EXPECT_NE(svg.find("best 0.490: resolution 2.00"), std::string::npos);
    }
}

TEST(WindowDiagram, FillsAndNumbersItsWindowsBelowTheLinesOfThePairs) {
    DrawnWindowDiagram diagram;
    for (int i = 0; i <= 10; ++i) {
        const double first = 4.0 - 0.8 * i; // the pairs change places at 0.25
        diagram.points.push_back({0.05 * i, std::abs(first), "a / b", false});
    }
    diagram.pairs = {{"a / b", {4.0, 3.2, 2.4, 1.6, 0.8, 0.0, 0.8, 1.6, 2.4, 3.2, 4.0}}};
    diagram.windows = {{0, 5, 0}, {5, 10, 10}};
    const std::string svg = window_diagram_picture(diagram, PictureFrame::page);
    std::size_t windows = 0;
    for (std::size_t at = 0; (at = svg.find("class=\"window\"", at)) != std::string::npos; ++at) {
        ++windows;
    }
    EXPECT_EQ(windows, 2U);
    EXPECT_NE(svg.find("class=\"pairline\""), std::string::npos);
    EXPECT_NE(svg.find("class=\"label\">2</text>"), std::string::npos);
    const std::string text = window_diagram_text(diagram);
    EXPECT_NE(text.find("\n          *"), std::string::npos) << text;
    EXPECT_NE(text.find("2\n"), std::string::npos) << text;
}

// astmd2887: boiling points of the alkanes, confirmed in yaws.
TEST(BoilingAxis, IsTheScaleOfTheLadderAndStaysOnIt) {
    const quantities::BoilingScale scale{{{11, 7, 196}, {12, 8, 216}, {14, 10, 254}}, {}};
    for (const TimeTick &tick : boiling_ticks(scale, 1.0, 20.0, 12)) {
        EXPECT_GE(tick.value, 196.0);
        EXPECT_LE(tick.value, 254.0);
        EXPECT_NEAR(boiling_point_at(scale, tick.retention_time_min).celsius.value(), tick.value,
                    1e-9);
    }
    EXPECT_EQ(boiling_ticks(scale, 1.0, 20.0, 12).size(), 11U); // 200, 205, ... 250
    EXPECT_TRUE(boiling_ticks(scale, 10.5, 20.0, 12).empty());
}

TEST(AxisTicks, AreRound) {
    EXPECT_DOUBLE_EQ(round_step(1.0, 10), 0.1);
    EXPECT_DOUBLE_EQ(round_step(13.0, 10), 2.0);
    EXPECT_EQ(axis_ticks(0.0, 0.3, 0.1).size(), 4U); // 0.3 / 0.1 is a little less than 3
    EXPECT_EQ(tick_text(0.1 + 0.2, 0.1), "0.3");
    EXPECT_EQ(tick_text(-0.0, 0.5), "0.0");
    EXPECT_EQ(tick_text(1200, 200), "1200");
}

TEST(ProbabilityBar, SaysUnlistedByHatchingAndInWords) {
    const std::string svg = probability_bar({{"anisole", 0.7}}, 0.0, 0.3, "peak 1");
    EXPECT_NE(svg.find("share unlisted"), std::string::npos);
    EXPECT_NE(svg.find("<desc>anisole 0.70, unlisted 0.30</desc>"), std::string::npos) << svg;
}

TEST(ReplicatePicture, MarksTheOddOnesByShape) {
    const std::string svg = replicate_picture({{"1", "", "2025-01-01", 0.3, false},
                                               {"2", "", "2025-02-01", 0.31, false},
                                               {"3", "", "2025-03-01", 0.5, true}},
                                              "Rf", "compound");
    std::size_t rings = 0;
    std::size_t diamonds = 0;
    const ptree tree = parsed(svg);
    for (const auto &[name, child] : tree.get_child("svg")) {
        rings += child.count("ellipse");
        diamonds += name == "g" ? child.count("path") : 0;
    }
    EXPECT_EQ(rings, 2U);
    EXPECT_EQ(diamonds, 1U);
}

TEST(TracePicture, ThinsWithoutLosingAnExtreme) {
    std::vector<double> signal(100000);
    for (std::size_t i = 0; i < signal.size(); ++i) {
        signal[i] = std::sin(0.001 * static_cast<double>(i));
    }
    signal[54321] = 9.0;
    signal[54322] = -9.0;
    const auto kept = thinned(signal, 500);
    EXPECT_LE(kept.size(), 2000U);
    EXPECT_TRUE(std::is_sorted(kept.begin(), kept.end()));
    EXPECT_EQ(kept.front(), 0U);
    EXPECT_EQ(kept.back(), signal.size() - 1);
    EXPECT_TRUE(std::binary_search(kept.begin(), kept.end(), 54321U));
    EXPECT_TRUE(std::binary_search(kept.begin(), kept.end(), 54322U));
    EXPECT_EQ(thinned({1, 2, 3}, 500).size(), 3U); // short ones are drawn whole
}

} // namespace
} // namespace cospot
