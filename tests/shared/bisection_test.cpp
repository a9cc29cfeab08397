#include "shared/bisection.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot {
namespace {

TEST(Bisected, ClosesInOnTheRoot) {
    const auto below_root_of_two = [](double x) { return x * x < 2.0; };
    EXPECT_NEAR(bisected(0.0, 2.0, 50, below_root_of_two), std::sqrt(2.0), 1e-14);
    EXPECT_NEAR(bisected(0.0, 2.0, 3, below_root_of_two), 1.375, 1e-12); // of 1.25 to 1.5
}

} // namespace
} // namespace cospot
