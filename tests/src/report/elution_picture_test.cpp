// The picture of a planned column: bands where they should be, numbers with room.
#include "drawing/elution_picture.h"
#include "drawing/label_layout.h"
#include "drawing/share_bar.h"
#include "svg_texts.h"

#include <gtest/gtest.h>

namespace cospot {
namespace {

constexpr const char *kHostileName = "<&\"'>]]>";

TEST(ElutionPicture, IsWellFormedAndNoLabelsOverlap) {
    std::vector<DrawnBand> crowd;
    for (int i = 0; i < 30; ++i) {
        crowd.push_back({std::to_string(i), "compound number " + std::to_string(i), 1.2 + 0.15 * i,
                         0.1, i == 7});
    }
    for (const std::vector<DrawnBand> &bands :
         {std::vector<DrawnBand>{{kHostileName, kHostileName, 3.2, 0.26, true}}, crowd}) {
        for (const DrawnColumn &column :
             {DrawnColumn{}, DrawnColumn{115.0, std::nullopt, 0.0}, DrawnColumn{115.0, 25.0, 60.0},
              DrawnColumn{115.0, 4.0, 0.0}, DrawnColumn{115.0, 0.1, 0.0},
              DrawnColumn{115.0, 5000.0, 0.0}}) {
            const std::string svg = elution_picture(bands, column, kHostileName);
            EXPECT_EQ(overlapping_texts(svg), "") << column.fraction_ml.value_or(0.0);
            EXPECT_EQ(marks_of(svg, "mark eluted wanted"), 1U);
        }
    }
}

/// The middle of the curve of a mark: its highest point.
double peak_x(const std::string &svg, const std::string &classes) {
    double x = 0.0;
    for_each_element(svg, [&](const std::string &name, const ptree &element, double) {
        if (name != "g" || element.get<std::string>("<xmlattr>.class", "") != classes) {
            return;
        }
        std::istringstream path(element.get<std::string>("path.<xmlattr>.d"));
        double highest = 1e9;
        char command = 0;
        double at = 0.0;
        double y = 0.0;
        while (path >> command >> at >> y) {
            if (y < highest) {
                highest = y;
                x = at;
            }
        }
    });
    return x;
}

TEST(ElutionPicture, IsToScale) {
    const std::string svg =
        elution_picture({{"1", "a", 2.0, 0.2, false}, {"2", "b", 6.0, 0.6, true}}, {}, "run");
    double zero = -1.0;
    for_each_element(svg, [&](const std::string &name, const ptree &element, double) {
        if (name == "text" && element.get_value<std::string>() == "0") {
            zero = element.get<double>("<xmlattr>.x");
        }
    });
    EXPECT_NEAR((peak_x(svg, "mark eluted wanted") - zero) / (peak_x(svg, "mark eluted") - zero),
                3.0, 1e-3);
}

TEST(FractionTicks, CountFromTheForerunAndThinOut) {
    const auto few = fraction_ticks({100.0, 20.0, 50.0}, 250.0, 4.0);
    ASSERT_EQ(few.size(), 10U);
    EXPECT_EQ(few.front().number, 1);
    EXPECT_DOUBLE_EQ(few.front().end_ml, 70.0);
    const double pixels_per_ml = 0.9;
    const auto many = fraction_ticks({100.0, 2.0, 0.0}, 1000.0, pixels_per_ml);
    ASSERT_GE(many.size(), 5U);
    EXPECT_LT(many.size(), 60U);
    for (std::size_t i = 1; i < many.size(); ++i) {
        EXPECT_GT(pixels_per_ml * (many[i].end_ml - many[i - 1].end_ml),
                  label_width(std::to_string(many[i].number)));
    }
    EXPECT_TRUE(fraction_ticks({100.0, 1e-9, 0.0}, 1e6, 1e-3).empty());
    EXPECT_TRUE(fraction_ticks({100.0, 20.0, 500.0}, 250.0, 4.0).empty()); // all in the forerun
}

TEST(ShareBar, IsFilledByTheShareAndSaysIt) {
    const std::string svg = share_bar(0.25, kHostileName);
    const double whole = attributes_of(share_bar(1.0, ""), "filled", "width").front();
    EXPECT_NEAR(attributes_of(svg, "filled", "width").front() / whole, 0.25, 1e-9);
    EXPECT_EQ(attributes_of(share_bar(7.0, ""), "filled", "width").front(), whole);
    EXPECT_EQ(elements_of(svg, "rect", "frame"), 1U);
}

} // namespace
} // namespace cospot
