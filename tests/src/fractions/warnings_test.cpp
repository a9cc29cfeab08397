#include "fractions/warnings.h"

#include "columns.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace cospot::fractions {
namespace {

constexpr double kTolerance = 0.03;

std::vector<Warning> warnings_of(const ColumnRun &run, ElutionOrder order = ElutionOrder::by_rf) {
    return find_warnings(run, judge_fractions(run), kTolerance, order);
}

std::vector<WarningKind> kinds_of(const ColumnRun &run, ElutionOrder order = ElutionOrder::by_rf) {
    std::vector<WarningKind> kinds;
    for (const Warning &warning : warnings_of(run, order)) {
        kinds.push_back(warning.kind);
    }
    return kinds;
}

using Kinds = std::vector<WarningKind>;

TEST(FindWarnings, NothingToSayOfAnOrderlyColumn) {
    EXPECT_EQ(kinds_of(column({lane(1, {0.6}), lane(2, {0.6, 0.4}), lane(3, {0.4})})), Kinds{});
}

TEST(FindWarnings, TheHigherRfShouldLeaveFirst) {
    const ColumnRun run = column({lane(1, {0.4}), lane(2, {0.6, 0.4}), lane(3, {0.6})});
    const auto warnings = warnings_of(run);
    ASSERT_EQ(warnings.size(), 1U);
    EXPECT_EQ(warnings[0].kind, WarningKind::order);
    EXPECT_NEAR(run.components[warnings[0].components[0]].rf.value(), 0.4, 1e-12);
    EXPECT_EQ(kinds_of(run, ElutionOrder::open), Kinds{});
}

TEST(FindWarnings, BandsThatLeaveTogetherContradictNothing) {
    EXPECT_EQ(kinds_of(column({lane(1, {0.6, 0.4}), lane(2, {0.6, 0.4})})), Kinds{});
    // The higher one begins first and ends last: it tails.
    EXPECT_EQ(kinds_of(column({lane(1, {0.6}), lane(2, {0.6, 0.4}), lane(3, {0.6})})), Kinds{});
}

TEST(FindWarnings, WarnsOfGapsAndMissingSpotsWithinABand) {
    EXPECT_EQ(kinds_of(column({lane(1, {0.5}), lane(3, {0.5})})), Kinds{WarningKind::gap});
    EXPECT_EQ(kinds_of(column({lane(1, {0.5}), lane(2, {}), lane(3, {0.5})})),
              Kinds{WarningKind::missed});
    EXPECT_EQ(kinds_of(column({lane(1, {}), lane(3, {0.5})})), Kinds{}); // before the band
}

TEST(FindWarnings, AWanderingRfMayBeTwoComponents) {
    std::vector<Lane> lanes;
    for (int i = 0; i < 8; ++i) {
        lanes.push_back(lane(i + 1, {0.50 - 0.01 * i}));
    }
    EXPECT_EQ(kinds_of(column(lanes)), Kinds{WarningKind::drift});
    lanes.resize(6);
    EXPECT_EQ(kinds_of(column(lanes)), Kinds{});
}

TEST(FindWarnings, ABandThatEndsWithItsPlateMayGoOnOnTheNext) {
    const ColumnRun run = column({lane(1, {0.50}, "one"), lane(2, {0.50}, "one"),
                                  lane(3, {0.44}, "two"), lane(4, {0.44}, "two")});
    EXPECT_EQ(kinds_of(run), Kinds{WarningKind::plate_edge});
    const ColumnRun one_plate = column({lane(1, {0.50}), lane(2, {0.50}), lane(3, {0.44})});
    EXPECT_EQ(kinds_of(one_plate), Kinds{});
}

TEST(FindWarnings, TheSameRfAgainAfterABreak) {
    const ColumnRun run = column({lane(1, {0.5}), lane(2, {}), lane(3, {}), lane(4, {0.5})});
    EXPECT_EQ(kinds_of(run), Kinds{WarningKind::seen_again});
}

TEST(FindWarnings, WarnsOfSpotsAtStartAndFront) {
    EXPECT_EQ(kinds_of(column({lane(1, {1.0}), lane(2, {0.0})})),
              (Kinds{WarningKind::at_front, WarningKind::at_start}));
}

} // namespace
} // namespace cospot::fractions
