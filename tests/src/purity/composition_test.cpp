// Area normalisation, relative retention, and the subtraction of a blank.
#include "purity/composition.h"

#include "purity/blank.h"

#include <gtest/gtest.h>

#include <numeric>
#include <stdexcept>

namespace cospot::purity {
namespace {

TEST(Composition, AreasAreShares) {
    // By hand: 980, 12 and 8 of 1000.
    const std::vector<double> areas{980.0, 12.0, 8.0};
    const auto plain = area_per_cent(areas, std::vector<double>{1.0, 1.0, 1.0});
    EXPECT_NEAR(plain[0], 98.0, 1e-9);
    EXPECT_NEAR(plain[1], 1.2, 1e-9);
    EXPECT_NEAR(plain[2], 0.8, 1e-9);
}

TEST(Composition, ResponseFactorsDivideAreas) {
    // pheur2246, rule read; by hand: 980, 12 / 0.8 and 8 / 2 of 999.
    const auto shares =
        area_per_cent(std::vector<double>{980.0, 12.0, 8.0}, std::vector<double>{1.0, 0.8, 2.0});
    EXPECT_NEAR(shares[0], 98.098, 1e-3);
    EXPECT_NEAR(shares[1], 1.5015, 1e-4);
    EXPECT_NEAR(shares[2], 0.4004, 1e-4);
    EXPECT_NEAR(std::accumulate(shares.begin(), shares.end(), 0.0), 100.0, 1e-9);
}

TEST(Composition, SumsOfLargeAreasDoNotOverflow) {
    const std::vector<double> areas{1e308, 1e308, 2e307};
    const auto shares = area_per_cent(areas, std::vector<double>{1.0, 1.0, 1.0});
    EXPECT_NEAR(shares[0], 100.0 / 2.2, 1e-9);
    EXPECT_NEAR(shares[2], 20.0 / 2.2, 1e-9);
    EXPECT_THROW((void)area_per_cent(areas, std::vector<double>{0.01, 1.0, 1.0}),
                 std::invalid_argument);
}

TEST(Composition, RefusesWhatCannotBeShared) {
    const std::vector<double> one{1.0};
    EXPECT_THROW((void)area_per_cent(std::vector<double>{0.0}, one), std::invalid_argument);
    EXPECT_THROW((void)area_per_cent(std::vector<double>{-1.0}, one), std::invalid_argument);
    EXPECT_THROW((void)area_per_cent(one, std::vector<double>{0.0}), std::invalid_argument);
    EXPECT_THROW((void)area_per_cent(one, {}), std::invalid_argument);
}

TEST(Composition, RelativeRetentionAdjustedAndNot) {
    // pheur2246, formulas read; numbers by hand: (7.5 - 1) / (5 - 1) and 7.5 / 5.
    EXPECT_NEAR(*relative_retention(7.5, 5.0, 1.0), 1.625, 1e-12);
    EXPECT_NEAR(*relative_retention(7.5, 5.0, std::nullopt), 1.5, 1e-12);
    EXPECT_FALSE(relative_retention(7.5, 1.0, 1.0));
}

TEST(Blank, PairsTheClosestAndEachOnce) {
    const std::vector<Located> sample{{1.00, 0.05, 100.0}, {1.04, 0.05, 80.0}, {2.0, 0.05, 50.0}};
    const std::vector<Located> blank{{1.03, 0.0, 79.0}};
    const auto matches = subtract_blank(sample, blank);
    EXPECT_FALSE(matches[0]);
    ASSERT_TRUE(matches[1]);
    EXPECT_TRUE(matches[1]->explains_all); // one of 80 is left: less than a tenth
    EXPECT_FALSE(matches[2]);
}

TEST(Blank, LeavesWhatIsTheSamplesOwn) {
    const std::vector<Located> sample{{1.0, 0.05, 100.0}};
    const auto matches = subtract_blank(sample, std::vector<Located>{{1.0, 0.0, 40.0}});
    ASSERT_TRUE(matches[0]);
    EXPECT_FALSE(matches[0]->explains_all);
    EXPECT_NEAR(*matches[0]->remaining_area, 60.0, 1e-12);
    const auto larger = subtract_blank(sample, std::vector<Located>{{1.0, 0.0, 140.0}});
    EXPECT_TRUE(larger[0]->explains_all);
    EXPECT_EQ(*larger[0]->remaining_area, 0.0);
    const auto unknown = subtract_blank(std::vector<Located>{{1.0, 0.05, std::nullopt}},
                                        std::vector<Located>{{1.0, 0.0, 40.0}});
    EXPECT_TRUE(unknown[0]->explains_all);
    EXPECT_FALSE(unknown[0]->remaining_area);
}

TEST(Blank, ToleranceIsTheWidthOrASmallShareOfTheTime) {
    EXPECT_DOUBLE_EQ(time_tolerance_min(10.0, 0.2), 0.1);
    EXPECT_DOUBLE_EQ(time_tolerance_min(10.0, std::nullopt), 0.05);
    EXPECT_DOUBLE_EQ(time_tolerance_min(1.0, std::nullopt), 0.02);
}

} // namespace
} // namespace cospot::purity
