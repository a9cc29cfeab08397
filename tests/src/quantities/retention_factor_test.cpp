#include "quantities/retention_factor.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot::quantities {
namespace {

// harvey2016, recomputed: butyric and isobutyric acid.
TEST(RetentionFactor, MatchesTextbookAcids) {
    const double butyric = retention_factor(7.63, 0.31);
    const double isobutyric = retention_factor(5.98, 0.31);
    EXPECT_NEAR(butyric, 23.61, 0.01);
    EXPECT_NEAR(isobutyric, 18.29, 0.01);
    EXPECT_NEAR(separation_factor(isobutyric, butyric), 1.291, 0.001);
}

// skoog, recomputed: a column of 30.0 cm.
TEST(RetentionFactor, MatchesTextbookColumn) {
    const double a = retention_factor(16.40, 1.30);
    const double b = retention_factor(17.63, 1.30);
    EXPECT_NEAR(a, 11.62, 11.62 * 0.005);
    EXPECT_NEAR(b, 12.56, 12.56 * 0.005);
    EXPECT_NEAR(separation_factor(a, b), 1.081, 1.081 * 0.005);
}

// pheur2246, formulas read; numbers invented.
TEST(RelativeRetention, MatchesPharmacopoeiaFormulas) {
    EXPECT_NEAR(relative_retention(7.5, 5.0, 1.0), 1.625, 1e-9);
    EXPECT_NEAR(unadjusted_relative_retention(7.5, 5.0, 0.0).value, 1.5, 1e-9);
}

// Against small changes of each time in turn, added in quadrature.
TEST(RelativeRetention, PropagatesTheErrorOfEachTime) {
    constexpr double u = 1e-5;
    for (const double time : {1.4, 2.5, 5.0, 9.0}) {
        const double plain = unadjusted_relative_retention(time, 5.0, u).value;
        const double by_hand =
            std::hypot(unadjusted_relative_retention(time + u, 5.0, u).value - plain,
                       unadjusted_relative_retention(time, 5.0 + u, u).value - plain);
        EXPECT_NEAR(unadjusted_relative_retention(time, 5.0, u).standard_uncertainty / by_hand, 1.0,
                    1e-4);
        const double adjusted = relative_retention(time, 5.0, 1.3);
        const double all_three = std::hypot(relative_retention(time + u, 5.0, 1.3) - adjusted,
                                            relative_retention(time, 5.0 + u, 1.3) - adjusted,
                                            relative_retention(time, 5.0, 1.3 + u) - adjusted);
        const Uncertain told = relative_retention(time, 5.0, 1.3, u);
        EXPECT_EQ(told.value, adjusted);
        EXPECT_NEAR(told.standard_uncertainty / all_three, 1.0, 1e-4);
    }
}

TEST(RelativeRetention, EqualsTheRatioOfRetentionFactors) {
    EXPECT_NEAR(relative_retention(4.2, 6.6, 1.3),
                retention_factor(4.2, 1.3) / retention_factor(6.6, 1.3), 1e-12);
}

TEST(SeparationFactor, IsAtLeastOneInEitherOrder) {
    EXPECT_DOUBLE_EQ(separation_factor(2.0, 5.0), 2.5);
    EXPECT_DOUBLE_EQ(separation_factor(5.0, 2.0), 2.5);
    EXPECT_THROW((void)separation_factor(0.0, 2.0), InputError);
    EXPECT_THROW((void)separation_factor(2.0, 0.0), InputError);
}

TEST(AdjustedRetentionTime, IsZeroForWhatIsNotRetained) {
    EXPECT_EQ(adjusted_retention_time(1.3, 1.3), 0.0);
    EXPECT_DOUBLE_EQ(adjusted_retention_time(4.5, 1.5), 3.0);
}

TEST(RetentionFactor, RefusesTimesBeforeTheHoldUpTime) {
    EXPECT_THROW((void)retention_factor(1.0, 1.3), InputError);
    EXPECT_THROW((void)retention_factor(1.0, 0.0), InputError);
    EXPECT_THROW((void)retention_factor(std::nan(""), 1.3), InputError);
    EXPECT_THROW((void)adjusted_retention_time(1.0, -0.1), InputError);
    EXPECT_THROW((void)relative_retention(1.0, 5.0, 1.3), InputError);
    EXPECT_THROW((void)relative_retention(5.0, 1.3, 1.3), InputError);
    EXPECT_THROW((void)unadjusted_relative_retention(5.0, 0.0, 0.01), InputError);
    EXPECT_THROW((void)unadjusted_relative_retention(0.0, 5.0, 0.01), InputError);
}

} // namespace
} // namespace cospot::quantities
