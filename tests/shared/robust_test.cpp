#include "shared/robust.h"

#include <gtest/gtest.h>

namespace cospot {
namespace {

TEST(Robust, MedianOfOddAndEvenNumbers) {
    EXPECT_DOUBLE_EQ(median({3.0, 1.0, 2.0}), 2.0);
    EXPECT_DOUBLE_EQ(median({4.0, 1.0, 3.0, 2.0}), 2.5);
    EXPECT_THROW((void)median({}), std::invalid_argument);
    EXPECT_DOUBLE_EQ(upper_median({4.0, 1.0, 3.0, 2.0}), 3.0);
}

TEST(Robust, NineTenthsOfTheValuesLieWithinTheUpperDecile) {
    EXPECT_DOUBLE_EQ(upper_decile({5.0}), 5.0);
    EXPECT_DOUBLE_EQ(upper_decile({1e9, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10}), 10.0);
}

} // namespace
} // namespace cospot
