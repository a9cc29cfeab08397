#include "audit/trend.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot {
namespace {

std::vector<SeriesPoint> series(const std::vector<double> &values) {
    std::vector<SeriesPoint> points;
    for (std::size_t i = 0; i < values.size(); ++i) {
        points.push_back({static_cast<double>(i) * 10.0, values[i]});
    }
    return points;
}

// By hand: eight rising values, sum of signs 28, variance 8 * 7 * 21 / 18 = 65.33, z = 27 / 8.083 =
// 3.340; two-sided p = 0.00084 (tables of the normal distribution).
TEST(Trend, MannKendallOfEightRisingValues) {
    EXPECT_NEAR(monotone_trend(series({1, 2, 3, 4, 5, 6, 7, 8})).p_value, 0.00084, 0.00001);
}

// By hand: ties take 2 * 1 * 9 / 18 = 1 off the variance 4 * 3 * 13 / 18 = 8.667; the sum is 5.
TEST(Trend, TiesLowerTheVariance) {
    const double z = 4.0 / std::sqrt(26.0 / 3.0 - 1.0);
    EXPECT_NEAR(monotone_trend(series({1, 2, 2, 3})).p_value, std::erfc(z / std::sqrt(2.0)), 1e-12);
}

TEST(Trend, SlopeIsNotMovedByOneOutlier) {
    EXPECT_NEAR(monotone_trend(series({1, 2, 3, 400, 5, 6, 7, 8})).slope_per_day, 0.1, 0.01);
}

TEST(Trend, ValuesWithoutOrderHaveNone) {
    EXPECT_GT(monotone_trend(series({3, 1, 4, 2, 4, 1, 3, 2})).p_value, 0.5);
    EXPECT_DOUBLE_EQ(monotone_trend(series({2, 2, 2, 2})).p_value, 1.0);
}

TEST(Trend, LongSeriesAreThinned) {
    std::vector<double> values;
    for (int i = 0; i < 20000; ++i) {
        values.push_back(0.001 * i + (i % 2 == 0 ? 1.0 : -1.0) * (i % 3));
    }
    EXPECT_NEAR(monotone_trend(series(values)).slope_per_day, 0.0001, 0.00001);
}

} // namespace
} // namespace cospot
