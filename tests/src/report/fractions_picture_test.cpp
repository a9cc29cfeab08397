// The picture of a column's run: cells, numbers and brackets have room, and it is well-formed.
#include "drawing/fraction_cells.h"
#include "drawing/fractions_picture.h"
#include "drawing/fractions_text.h"
#include "drawing/label_layout.h"
#include "svg_texts.h"

#include <gtest/gtest.h>

namespace cospot {
namespace {

/// A run of so many fractions with three components; every seventh fraction was left out.
DrawnRun run_of(int fractions, bool by_detector) {
    DrawnRun run;
    DrawnComponent a{"A  Rf 0.62", true, {}};
    DrawnComponent b{"B  Rf 0.40", false, {}};
    for (int number = 1; number <= fractions; ++number) {
        if (number % 7 == 0) {
            continue;
        }
        const DrawnState state = number % 3 == 0   ? DrawnState::none
                                 : number % 3 == 1 ? DrawnState::one
                                                   : DrawnState::mixed;
        run.fractions.push_back({number, std::to_string(number), "fraction", state,
                                 by_detector ? std::optional(1.0 * number) : std::nullopt});
        if (state != DrawnState::none) {
            a.cells.push_back({number, 0.5});
        }
        if (state == DrawnState::mixed) {
            b.cells.push_back({number, std::nullopt});
            run.keep_apart.push_back({number, number, "A + B"});
        } else if (state == DrawnState::one) {
            run.combine.push_back({number, number, "A"});
        }
    }
    run.components = {a};
    if (!b.cells.empty()) {
        run.components.push_back(b);
    }
    if (by_detector) {
        run.threshold = 2.0;
    }
    return run;
}

TEST(FractionsPicture, IsWellFormedAndNoLabelsOverlap) {
    for (const int fractions : {1, 2, 8, 75, 150, 1000}) {
        for (const bool by_detector : {false, true}) {
            for (const std::string &svg :
                 fractions_pictures(run_of(fractions, by_detector), "run")) {
                EXPECT_EQ(overlapping_texts(svg), "") << fractions;
            }
        }
    }
}

TEST(FractionsPicture, BreaksALongRunIntoSeveral) {
    EXPECT_EQ(fractions_pictures(run_of(150, false), "").size(), 1U);
    EXPECT_GT(fractions_pictures(run_of(1000, false), "").size(), 4U);
}

TEST(FractionsPicture, TellsStatesApartWithoutColour) {
    DrawnRun run;
    run.fractions = {{1, "1", "", DrawnState::one},
                     {2, "2", "", DrawnState::mixed},
                     {3, "3", "", DrawnState::none},
                     {9, "9", "", DrawnState::one}};
    run.components = {{"A", false, {{1, 1.0}, {2, 0.5}, {9, 0.25}}}};
    const std::string svg = fractions_pictures(run, "").front();
    EXPECT_EQ(marks_of(svg, "mark fraction one"), 2U);
    EXPECT_EQ(marks_of(svg, "mark fraction mixed"), 1U);
    EXPECT_EQ(marks_of(svg, "mark fraction none"), 1U);
    EXPECT_EQ(elements_of(svg, "line", "dash"), 2U); // 4 to 8: in the strip, and within A's band
}

TEST(FractionsPicture, BarsAreToScale) {
    DrawnRun run;
    run.fractions = {{1, "1", "", DrawnState::one}, {2, "2", "", DrawnState::one}};
    run.components = {{"A", false, {{1, 1.0}, {2, 0.25}}}};
    const std::vector<double> heights =
        attributes_of(fractions_pictures(run, "").front(), "amount", "height");
    ASSERT_EQ(heights.size(), 2U);
    EXPECT_NEAR(heights[0] / heights[1], 4.0, 1e-9);
}

TEST(FractionsText, TellsStatesApartWithoutColour) {
    DrawnRun run;
    run.fractions = {{1, "1", "", DrawnState::one},
                     {2, "2", "", DrawnState::mixed},
                     {3, "3", "", DrawnState::none},
                     {9, "9", "", DrawnState::one}};
    run.components = {{"A", false, {{1, 1.0}, {2, 0.5}, {9, 0.25}}}, {"B", false, {{2, 1.0}}}};
    EXPECT_EQ(fractions_text(run),
              "fraction       1  2  3  ?  9\n"
              "A             ██ ▒▒     ? ██\n"
              "B                ▒▒\n"
              "spots          1  2  -  ?  1\n\n"
              "██ one spot seen   ▒▒ several spots   - no spot seen   ? not looked at\n");
}

TEST(FractionCells, StandForGapsToo) {
    const auto cells = fraction_cells({2, 3, 7});
    ASSERT_EQ(cells.size(), 4U);
    EXPECT_EQ(cells[2].first, 4);
    EXPECT_EQ(cells[2].last, 6);
    EXPECT_FALSE(cells[2].fraction);
    EXPECT_EQ(cells[3].fraction, 2U);
}

TEST(FractionCells, NumbersThinOutButKeepBothEnds) {
    std::vector<int> numbers;
    for (int number = 1; number <= 150; ++number) {
        numbers.push_back(number);
    }
    const auto cells = fraction_cells(numbers);
    const auto wide = numbered_cells(cells, 60.0);
    EXPECT_EQ(wide.size(), 150U);
    const double width = 6.0;
    const auto chosen = numbered_cells(cells, width);
    EXPECT_EQ(chosen.front(), 0U);
    EXPECT_EQ(chosen.back(), 149U);
    ASSERT_GE(chosen.size(), 10U);
    for (std::size_t i = 1; i < chosen.size(); ++i) {
        EXPECT_GT(width * static_cast<double>(chosen[i] - chosen[i - 1]),
                  0.5 * (label_width(std::to_string(cells[chosen[i]].first)) +
                         label_width(std::to_string(cells[chosen[i - 1]].first))));
    }
}

TEST(Stacked, TakesANewLineOnlyWhereThereIsNoRoom) {
    EXPECT_EQ(stacked({{0, 10}, {5, 15}, {10, 20}, {6, 8}}),
              (std::vector<std::size_t>{0, 1, 0, 2}));
}

} // namespace
} // namespace cospot
