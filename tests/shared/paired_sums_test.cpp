#include "shared/paired_sums.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot {
namespace {

// By hand: of (1,1), (2,3), (3,2) the sums about the means are 2, 2 and, of products, 1.
TEST(PairedSums, CorrelateAsPearsonDoes) {
    PairedSums sums;
    EXPECT_FALSE(sums.correlation());
    sums.add(1.0, 1.0);
    EXPECT_FALSE(sums.correlation()); // one pair does not vary
    sums.add(2.0, 3.0);
    sums.add(3.0, 2.0);
    EXPECT_EQ(sums.count(), 3.0);
    EXPECT_NEAR(sums.correlation().value(), 0.5, 1e-12);
}

} // namespace
} // namespace cospot
