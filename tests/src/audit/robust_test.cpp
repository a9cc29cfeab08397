#include "audit/robust.h"

#include <gtest/gtest.h>

namespace cospot {
namespace {

// The worked factor: 1.4826 = 1 / 0.6745, the upper quartile of the standard normal distribution
// (tables of the normal distribution).
TEST(Robust, QuartileOfTheNormalDistributionCountsAsOneStandardDeviation) {
    EXPECT_NEAR(robust_deviation({-0.6745, 0.6745, 0.1, -3.0}), 1.0, 1e-4);
    EXPECT_NEAR(robust_deviation({-0.6745, 0.6745, 0.1, -3e9}), 1.0, 1e-4);
}

} // namespace
} // namespace cospot
