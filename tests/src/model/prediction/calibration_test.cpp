#include "model/prediction/calibration.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>
#include <random>

namespace cospot::prediction {
namespace {

TEST(Prediction, HasTheHalfWidthOfStudentsT) {
    // ttable, read: t(0.95) is 2.920 at 2 and 2.132 at 4 degrees of freedom.
    EXPECT_NEAR((Prediction{0.0, 1.0, 2.0}).half_width(), 2.920, 5e-4);
    EXPECT_NEAR((Prediction{5.0, 0.1, 4.0}).half_width(), 0.2132, 5e-5);
}

TEST(IntervalQuantile, TakesTheRankAmongNPlusOne) {
    // 0.9 * (19 + 1): the 18th of 1 to 19; 0.9 * (10 + 1) rounded up: the 10th of 1 to 10.
    std::vector<double> residuals(19);
    std::iota(residuals.begin(), residuals.end(), 1.0);
    residuals[17] = -18.0;
    EXPECT_DOUBLE_EQ(interval_quantile(residuals), 18.0);
    residuals.resize(10);
    EXPECT_DOUBLE_EQ(interval_quantile(residuals), 10.0);
    EXPECT_DOUBLE_EQ(interval_quantile({-2.0}), 2.0) << "too few to tell: the largest";
}

TEST(Calibration, FindsNormalResidualsNormal) {
    std::mt19937 generator(1);
    std::normal_distribution<double> normal(0.0, 2.0);
    std::vector<double> residuals(4000);
    for (double &residual : residuals) {
        residual = normal(generator);
    }
    const Calibration calibration = calibrate(residuals);
    EXPECT_GE(calibration.freedom, 10.0);
    EXPECT_NEAR(calibration.spread(0.0, 1.0).half_width(), 2.0 * 1.645, 0.15);
}

TEST(Calibration, FindsHeavyTails) {
    std::mt19937 generator(2);
    std::student_t_distribution<double> heavy(2.0);
    std::vector<double> residuals(4000);
    for (double &residual : residuals) {
        residual = heavy(generator);
    }
    const Calibration calibration = calibrate(residuals);
    EXPECT_LE(calibration.freedom, 3.0);
    EXPECT_NEAR(calibration.spread(0.0, 1.0).half_width(), 2.92, 0.25);
}

} // namespace
} // namespace cospot::prediction
