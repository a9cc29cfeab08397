#include "shared/value_with_spread.h"

#include <gtest/gtest.h>

namespace cospot {
namespace {

TEST(ValueWithSpread, ARetentionFactorShowsTwoDigitsOfItsSpread) {
    EXPECT_EQ(with_spread(Quantity::k, 0.2134, 0.0021), "0.2134 ± 0.0021");
    EXPECT_EQ(with_spread(Quantity::k, 5.123, 0.0321), "5.123 ± 0.032");
    EXPECT_EQ(with_spread(Quantity::k, 5.123, 0.321), "5.12 ± 0.32");
    EXPECT_EQ(with_spread(Quantity::k, 5.123, 3.0), "5.12 ± 3.00");
    EXPECT_EQ(shown_beside(Quantity::k, 0.0004, 0.0021), "0.0004");
}

TEST(ValueWithSpread, OtherQuantitiesKeepTheirDigits) {
    EXPECT_EQ(with_spread(Quantity::Rf, 0.2134, 0.0021), "0.21 ± 0.00");
    EXPECT_EQ(with_spread(Quantity::RI, 1099.32, 0.5), "1099.3 ± 0.5");
    EXPECT_EQ(with_spread(Quantity::tR, 3.1, 0.0), "3.100");
}

TEST(ValueWithSpread, ARetentionFactorWithoutSpreadHasThreeDigits) {
    EXPECT_EQ(shown(Quantity::k, 0.2134), "0.213");
    EXPECT_EQ(shown(Quantity::k, 0.02134), "0.0213");
    EXPECT_EQ(shown(Quantity::k, 1.234), "1.23");
    EXPECT_EQ(shown(Quantity::k, 0.0), "0.00");
}

} // namespace
} // namespace cospot
