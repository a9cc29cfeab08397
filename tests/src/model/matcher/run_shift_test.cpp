// What is told of a mixture of shifts: its middle, and how far its parts lie apart.
#include "model/matcher/run_shift.h"

#include <boost/math/distributions/normal.hpp>
#include <gtest/gtest.h>

#include <cmath>

namespace cospot::matcher {
namespace {

TEST(TypicalShift, OfOneShiftIsThatShift) {
    const RunShift one = typical({{1.0, {3.0, 4.0}}});
    EXPECT_EQ(one.mean, 3.0);
    EXPECT_EQ(one.variance, 4.0);
}

TEST(TypicalShift, IsTheMedianAndHalfTheWidthOfTheMiddle68PerCent) {
    const ShiftMixture mixture{{0.7, {1.0, 4.0}}, {0.3, {6.0, 1.0}}};
    const RunShift told = typical(mixture);
    const auto below = [&](double x) {
        return 0.7 * boost::math::cdf(boost::math::normal(1.0, 2.0), x) +
               0.3 * boost::math::cdf(boost::math::normal(6.0, 1.0), x);
    };
    EXPECT_NEAR(below(told.mean), 0.5, 1e-5);
    // The quantiles, by bisection on Boost's distribution function.
    const auto quantile = [&](double probability) {
        double low = -20.0;
        double high = 20.0;
        for (int i = 0; i < 60; ++i) {
            const double middle = 0.5 * (low + high);
            (below(middle) < probability ? low : high) = middle;
        }
        return low;
    };
    EXPECT_NEAR(std::sqrt(told.variance), 0.5 * (quantile(0.841345) - quantile(0.158655)), 1e-4);
}

TEST(TypicalShift, ShiftsWithOneMeanGiveTheLikeliestVariance) {
    const RunShift told = typical({{0.5, {0.0, 4.0}}, {0.3, {0.0, 200.0}}, {0.2, {0.0, 600.0}}});
    EXPECT_EQ(told.mean, 0.0);
    EXPECT_EQ(told.variance, 4.0);
}

TEST(TypicalShift, ASmallChanceOfAnAccidentHardlyMovesIt) {
    const RunShift told = typical({{0.95, {0.2, 1.0}}, {0.05, {40.0, 225.0}}});
    EXPECT_NEAR(told.mean, 0.2, 0.1);
    EXPECT_NEAR(std::sqrt(told.variance), 1.0, 0.15); // their standard deviation is 9.3
}

TEST(TypicalShift, SharpShiftsGiveOneOfThemNotAMean) {
    const RunShift told = typical({{0.8, {2.0, 0.0}}, {0.2, {9.0, 0.0}}});
    EXPECT_NEAR(told.mean, 2.0, 1e-3);
}

TEST(ShiftRange, SpansTheMeansOfAllParts) {
    const ShiftRange range = range_of({{0.2, {-4.0, 1.0}}, {0.7, {1.0, 9.0}}, {0.1, {10.0, 2.0}}});
    EXPECT_DOUBLE_EQ(range.middle, 3.0);
    EXPECT_DOUBLE_EQ(range.half_width, 7.0);
    EXPECT_DOUBLE_EQ(range.largest_variance, 9.0);
}

} // namespace
} // namespace cospot::matcher
