// still1978, Table I, read.
#include "fractions/flash_columns.h"

#include "shared/error.h"

#include <gtest/gtest.h>

namespace cospot::fractions {
namespace {

TEST(FlashColumns, HoldTheFiveRowsOf1978) {
    const auto easy = flash_columns(0.2);
    const auto hard = flash_columns(0.1);
    ASSERT_EQ(easy.size(), 5U);
    const double rows[5][5] = {{10, 100, 100, 40, 5},
                               {20, 200, 400, 160, 10},
                               {30, 400, 900, 360, 20},
                               {40, 600, 1600, 600, 30},
                               {50, 1000, 2500, 1000, 50}};
    for (std::size_t i = 0; i < 5; ++i) {
        EXPECT_DOUBLE_EQ(easy[i].diameter_mm, rows[i][0]);
        EXPECT_DOUBLE_EQ(easy[i].eluent_ml, rows[i][1]);
        EXPECT_DOUBLE_EQ(easy[i].load_mg, rows[i][2]);
        EXPECT_DOUBLE_EQ(hard[i].load_mg, rows[i][3]);
        EXPECT_DOUBLE_EQ(easy[i].fraction_ml, rows[i][4]);
    }
}

TEST(FlashColumns, ADeltaRfBetweenTwoRowsTakesTheHarderOne) {
    EXPECT_DOUBLE_EQ(flash_columns(0.19).front().load_mg, 40.0);
    EXPECT_DOUBLE_EQ(flash_columns(0.35 - 0.25).front().load_mg, 40.0); // 0.0999... in a double
    EXPECT_DOUBLE_EQ(flash_columns(0.6).front().load_mg, 100.0);
    EXPECT_THROW((void)flash_columns(0.09), InputError);
}

TEST(AdviseColumn, GivesRowsAsTheyStand) {
    EXPECT_DOUBLE_EQ(advise_column(900.0, 0.2).column.diameter_mm, 30.0);
    EXPECT_DOUBLE_EQ(advise_column(1000.0, 0.1).column.diameter_mm, 50.0);
    EXPECT_DOUBLE_EQ(advise_column(40.0, 0.1).column.fraction_ml, 5.0);
}

// In the table loads grow with the square of the diameter, 100 mg at 10 mm: 225 mg are at 15 mm.
TEST(AdviseColumn, InterpolatesAlongTheSquareOfTheDiameter) {
    const ColumnAdvice advice = advise_column(225.0, 0.2);
    EXPECT_EQ(advice.place, TablePlace::on_or_between_rows);
    EXPECT_NEAR(advice.column.diameter_mm, 15.0, 1e-9);
    EXPECT_GT(advice.column.eluent_ml, 100.0);
    EXPECT_LT(advice.column.eluent_ml, 200.0);
    EXPECT_NEAR(flash_column_of(15.0, 0.2).value().load_mg, 225.0, 1e-9);
}

TEST(AdviseColumn, AWiderColumnForMoreOrHarderSeparations) {
    double before = 0.0;
    for (double load = 40.0; load <= 1000.0; load += 20.0) {
        const double diameter = advise_column(load, 0.1).column.diameter_mm;
        EXPECT_GT(diameter, before);
        EXPECT_GE(diameter, advise_column(load, 0.2).column.diameter_mm);
        before = diameter;
    }
}

TEST(AdviseColumn, NeverExtrapolates) {
    const ColumnAdvice little = advise_column(5.0, 0.2);
    EXPECT_EQ(little.place, TablePlace::below_first_row);
    EXPECT_DOUBLE_EQ(little.column.diameter_mm, 10.0);
    const ColumnAdvice much = advise_column(6000.0, 0.2);
    EXPECT_EQ(much.place, TablePlace::beyond_last_row);
    EXPECT_DOUBLE_EQ(much.column.diameter_mm, 50.0);
    EXPECT_EQ(much.portions, 3U);
    EXPECT_FALSE(flash_column_of(9.0, 0.2).has_value());
    EXPECT_FALSE(flash_column_of(51.0, 0.2).has_value());
    EXPECT_THROW((void)advise_column(0.0, 0.2), InputError);
}

} // namespace
} // namespace cospot::fractions
