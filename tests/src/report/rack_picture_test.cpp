// The rack of tubes: each tube in its place, gaps said, numbers and letters with room.
#include "drawing/rack_picture.h"
#include "svg_texts.h"

#include <gtest/gtest.h>

namespace cospot {
namespace {

constexpr const char *kHostileName = "<&\"'>]]>";

DrawnTube tube_with(int number, const std::string &letters) {
    DrawnTube tube{.number = number, .letters = letters, .words = kHostileName, .key = "1"};
    tube.content = letters.empty()      ? TubeContent::none
                   : letters.size() > 1 ? TubeContent::several
                                        : TubeContent::one;
    tube.holds_target = letters.find('B') != std::string::npos;
    return tube;
}

/// A in 3 to 4, A and B in 5, B in 6, and C in 47, after two rows of ten that hold nothing.
DrawnRack small_rack() {
    DrawnRack rack{12.0, 30.0, {}};
    for (int number = 1; number <= 47; ++number) {
        rack.tubes.push_back(tube_with(number, number == 3 || number == 4 ? "A"
                                               : number == 5              ? "AB"
                                               : number == 6              ? "B"
                                               : number == 47             ? "C"
                                                                          : ""));
    }
    rack.tubes[1].content = TubeContent::possible;
    return rack;
}

TEST(RackPicture, FillsTheTargetAndHatchesWhatIsMixed) {
    const std::string svg = rack_picture(small_rack(), kHostileName);
    EXPECT_EQ(marks_of(svg, "mark tube one wanted"), 1U);
    EXPECT_EQ(marks_of(svg, "mark tube one"), 3U);
    EXPECT_EQ(marks_of(svg, "mark tube several"), 1U);
    EXPECT_EQ(marks_of(svg, "flask"), 1U);
    EXPECT_EQ(overlapping_texts(svg), "");
    DrawnRack nothing_discarded = small_rack();
    nothing_discarded.discarded_ml = 0.0;
    EXPECT_EQ(marks_of(rack_picture(nothing_discarded, ""), "flask"), 0U);
}

TEST(RackPicture, TubesStandInOrderAndSaysWhichRowsItLeavesOut) {
    const std::string svg = rack_picture(small_rack(), "rack");
    std::vector<std::string> numbers;
    for_each_element(svg, [&](const std::string &name, const ptree &element, double) {
        if (name == "text" && element.get<std::string>("<xmlattr>.class") == "tick") {
            numbers.push_back(element.get_value<std::string>());
        }
    });
    ASSERT_EQ(numbers.size(), 27U); // two rows, of which the last is short
    EXPECT_EQ(numbers.front(), "1");
    EXPECT_EQ(numbers[19], "20");
    EXPECT_EQ(numbers[20], "41");
    EXPECT_NE(svg.find("tubes 21 to 40: nothing expected"), std::string::npos);
}

TEST(RackText, ShowsTheSameInRowsOfTen) {
    EXPECT_EQ(rack_text(small_rack()), "  30 mL discarded, then tubes of 12 mL\n"
                                       "      1 |   | · | A | A |AB | B |   |   |   |   | 10\n"
                                       "        tubes 11 to 40: nothing expected\n"
                                       "     41 |   |   |   |   |   |   | C | 47\n");
    DrawnRack crowded{5.0, 0.0, {tube_with(1, "ABCD")}};
    EXPECT_EQ(rack_text(crowded), "  tubes of 5 mL, nothing discarded before tube 1\n"
                                  "      1 |mix| 1\n");
}

} // namespace
} // namespace cospot
