#include "resolve/retention_line.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot::resolve {
namespace {

double k_of(double log_k_weak, double slope, double fraction) {
    return std::pow(10.0, log_k_weak - slope * fraction);
}

// snyder2007, formula read; numbers invented: two of three points give the line, and the third.
TEST(RetentionLine, IsExactThroughTwoPoints) {
    const RetentionLine line = fit_line({{0.3, 50.12}, {0.7, 1.259}});
    EXPECT_NEAR(line.law.log_k_weak, 2.9, 1e-3);
    EXPECT_NEAR(line.law.slope, 4.0, 1e-3);
    EXPECT_NEAR(quantities::retention_factor_at(line.law, 0.5), 7.943, 0.002);
    EXPECT_FALSE(line.worst_factor);
    EXPECT_FALSE(pooled_scatter({line, line}));
}

// By hand: log k 1.0, 0.5, 0.2 at 0.2, 0.4, 0.6 has the slope -2 and the mean 1.7/3; residuals
// are 1/30, -2/30, 1/30.
TEST(RetentionLine, IsLeastSquaresThroughThree) {
    const RetentionLine line =
        fit_line({{0.2, 10.0}, {0.4, std::pow(10.0, 0.5)}, {0.6, std::pow(10.0, 0.2)}});
    EXPECT_NEAR(line.law.slope, 2.0, 1e-12);
    EXPECT_NEAR(line.law.log_k_weak, 1.7 / 3.0 + 0.8, 1e-12);
    EXPECT_NEAR(line.residual_squares, 6.0 / 900.0, 1e-12);
    EXPECT_NEAR(line.worst_factor.value(), std::pow(10.0, -2.0 / 30.0), 1e-12);
    // The parabola through them has its middle 0.1 below the chord.
    EXPECT_TRUE(line.is_bent);
}

TEST(RetentionLine, ScatterWithoutAPatternIsNoBend) {
    std::vector<RetentionPoint> points;
    for (int i = 0; i < 9; ++i) {
        const double fraction = 0.2 + 0.05 * i;
        points.push_back({fraction, k_of(2.0, 3.0, fraction) * (i % 2 == 0 ? 1.03 : 0.97)});
    }
    EXPECT_FALSE(fit_line(points).is_bent);
    for (RetentionPoint &point : points) {
        point.k *= std::pow(10.0, 3.0 * std::pow(point.fraction - 0.4, 2)); // 0.12 at the ends
    }
    EXPECT_TRUE(fit_line(points).is_bent);
}

// The forecast of simple linear regression at the mean of the readings is s sqrt(1 + 1/n), and
// wider away from it (any textbook of statistics; common knowledge, no source).
TEST(RetentionLine, ForecastIsWidestFarFromTheReadings) {
    const RetentionLine line = fit_line({{0.2, 10.2}, {0.4, 3.0}, {0.6, 1.05}});
    const Scatter scatter{0.02, 4.0};
    EXPECT_NEAR(forecast(line, scatter, 0.4).scale, 0.02 * std::sqrt(4.0 / 3.0), 1e-12);
    EXPECT_NEAR(forecast(line, scatter, 0.6).scale, 0.02 * std::sqrt(4.0 / 3.0 + 0.5), 1e-12);
    // 2.132 is the 95 % point of Student's t with 4 degrees of freedom (printed tables).
    EXPECT_NEAR(forecast(line, scatter, 0.4).half_width(), 2.132 * 0.02 * std::sqrt(4.0 / 3.0),
                1e-5);
}

TEST(RetentionLine, ScatterIsPooledOverCompounds) {
    const RetentionLine exact = fit_line({{0.3, 5.0}, {0.5, 2.0}});
    const RetentionLine loose =
        fit_line({{0.2, 10.0}, {0.4, std::pow(10.0, 0.5)}, {0.6, std::pow(10.0, 0.2)}});
    const auto scatter = pooled_scatter({exact, loose, loose});
    ASSERT_TRUE(scatter);
    EXPECT_EQ(scatter->freedom, 2.0);
    EXPECT_NEAR(scatter->deviation, std::sqrt(6.0 / 900.0), 1e-12);
}

TEST(RetentionLine, NeedsTwoFractions) {
    EXPECT_THROW((void)fit_line({{0.3, 5.0}, {0.3, 5.1}}), InputError);
}

} // namespace
} // namespace cospot::resolve
