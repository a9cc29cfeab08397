// Areas are invented; the temperatures follow by hand.
#include "distil/recovery.h"

#include <gtest/gtest.h>

namespace cospot::distillation {
namespace {

double celsius_at(const std::vector<Recovered> &table, double per_cent) {
    for (const Recovered &row : table) {
        if (row.per_cent == per_cent) {
            return row.celsius.value();
        }
    }
    ADD_FAILURE() << per_cent;
    return 0.0;
}

TEST(Recovery, StatesTheUsualPercentages) {
    ASSERT_EQ(stated_percentages().size(), 21U);
    EXPECT_EQ(stated_percentages().front(), 0.5);
    EXPECT_EQ(stated_percentages()[1], 5.0);
    EXPECT_EQ(stated_percentages()[19], 95.0);
    EXPECT_EQ(stated_percentages().back(), 99.5);
}

TEST(Recovery, EvenAreaGivesAStraightLine) {
    const auto table = recovery_table({{100.0, 200.0, 7.0}}, {});
    EXPECT_NEAR(celsius_at(table, 0.5), 100.5, 1e-9);
    EXPECT_NEAR(celsius_at(table, 50.0), 150.0, 1e-9);
    EXPECT_NEAR(celsius_at(table, 99.5), 199.5, 1e-9);
}

// 25 % from 100 to 110, nothing to 200, 75 % from 200 to 230.
TEST(Recovery, AtAGapTheLowerTemperatureCounts) {
    const auto table = recovery_table({{200.0, 230.0, 3.0}, {100.0, 110.0, 1.0}}, {});
    EXPECT_NEAR(celsius_at(table, 10.0), 104.0, 1e-9);
    EXPECT_NEAR(celsius_at(table, 25.0), 110.0, 1e-9);
    EXPECT_NEAR(celsius_at(table, 50.0), 210.0, 1e-9);
}

// Two areas that overlap: 1 a degree from 100 to 150, 2 to 200, 1 to 250; 200 in all.
TEST(Recovery, AreasMayOverlap) {
    const auto table = recovery_table({{100.0, 200.0, 100.0}, {150.0, 250.0, 100.0}}, {});
    EXPECT_NEAR(celsius_at(table, 25.0), 150.0, 1e-9);
    EXPECT_NEAR(celsius_at(table, 50.0), 175.0, 1e-9);
    EXPECT_NEAR(celsius_at(table, 75.0), 200.0, 1e-9);
    EXPECT_NEAR(celsius_at(table, 80.0), 210.0, 1e-9);
}

TEST(Recovery, SaysWhatLiesOffTheScale) {
    const auto table = recovery_table({{100.0, 200.0, 50.0}}, {30.0, 20.0});
    EXPECT_EQ(table[0].place, Recovered::Place::below_scale);
    EXPECT_FALSE(table[0].celsius);
    EXPECT_NEAR(celsius_at(table, 30.0), 100.0, 1e-9);
    EXPECT_NEAR(celsius_at(table, 55.0), 150.0, 1e-9);
    EXPECT_EQ(table.back().place, Recovered::Place::above_scale);
    EXPECT_FALSE(table.back().celsius);
}

// Cumulative area at the apexes: 10 % at 100, 20 + 30 = 50 % at 200, 80 + 10 = 90 % at 300.
TEST(Recovery, BetweenApexesIsAStraightLine) {
    const auto table = recovery_table(
        spread_between_apexes({{100.0, 100.0, 20.0}, {200.0, 200.0, 60.0}, {300.0, 300.0, 20.0}}),
        {});
    EXPECT_NEAR(celsius_at(table, 0.5), 100.0, 1e-9);
    EXPECT_NEAR(celsius_at(table, 10.0), 100.0, 1e-9);
    EXPECT_NEAR(celsius_at(table, 30.0), 150.0, 1e-9);
    EXPECT_NEAR(celsius_at(table, 50.0), 200.0, 1e-9);
    EXPECT_NEAR(celsius_at(table, 70.0), 250.0, 1e-9);
    EXPECT_NEAR(celsius_at(table, 99.5), 300.0, 1e-9);
}

TEST(Recovery, OnePeakBoilsAtOneTemperature) {
    const auto table = recovery_table(spread_between_apexes({{100.0, 100.0, 20.0}}), {});
    for (const Recovered &row : table) {
        EXPECT_EQ(row.celsius, 100.0) << row.per_cent;
    }
}

} // namespace
} // namespace cospot::distillation
