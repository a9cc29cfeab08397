#include "fractions/trace.h"

#include "columns.h"
#include "fractions/pools.h"
#include "shared/error.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace cospot::fractions {
namespace {

using Numbers = std::vector<int>;

std::vector<Fraction> signals(const std::vector<double> &values) {
    std::vector<Fraction> fractions;
    for (std::size_t i = 0; i < values.size(); ++i) {
        Fraction fraction;
        fraction.number = static_cast<int>(i) + 1;
        fraction.signal = values[i];
        fractions.push_back(fraction);
    }
    return fractions;
}

TEST(FractionsOfTrace, AveragesTheSignalOfEachFraction) {
    const auto fractions =
        fractions_of_trace({{0.0, 1.0}, {5.0, 3.0}, {10.0, 5.0}, {10.1, 7.0}, {35.0, 9.0}}, 10.0);
    ASSERT_EQ(fractions.size(), 3U);
    EXPECT_EQ(fractions[0].number, 1);
    EXPECT_DOUBLE_EQ(fractions[0].signal.value(), 3.0); // 10 mL ends fraction 1
    EXPECT_EQ(fractions[1].number, 2);
    EXPECT_EQ(fractions[2].number, 4); // nothing was measured in 3
    EXPECT_DOUBLE_EQ(fractions[0].volume_ml.value(), 10.0);
    EXPECT_THROW((void)fractions_of_trace({{1.0, 1.0}}, 0.0), InputError);
}

TEST(FindBands, PartsBandsAtTheThreshold) {
    const TraceBands bands = find_bands(signals({0, 5, 9, 5, 1, 1, 4, 8, 3, 0}), 1.0);
    ASSERT_EQ(bands.run.components.size(), 2U);
    EXPECT_EQ(numbers_of(bands.run, 0), (Numbers{2, 3, 4}));
    EXPECT_EQ(numbers_of(bands.run, 1), (Numbers{7, 8, 9}));
    EXPECT_FALSE(bands.run.components[0].rf.has_value());
    EXPECT_DOUBLE_EQ(bands.run.components[0].spots[1].intensity.value(), 8.0);
    EXPECT_TRUE(bands.shoulders.empty());
}

// Two Gaussian bands of known width: a one-band fraction may hold no more of the other band than
// the foot at which it is cut.
TEST(FindBands, OverlappingGaussianBandsAreMixedAsFarAsTheyReach) {
    const auto first = [](int number) {
        return 100.0 * std::exp(-std::pow((number - 12.0) / 2.0, 2) / 2);
    };
    const auto second = [](int number) {
        return 60.0 * std::exp(-std::pow((number - 22.0) / 2.5, 2) / 2);
    };
    std::vector<double> values;
    for (int number = 1; number <= 40; ++number) {
        values.push_back(first(number) + second(number));
    }
    const TraceBands bands = find_bands(signals(values), 1.0);
    const Pooling pooling = judge_fractions(bands.run);
    ASSERT_EQ(bands.run.components.size(), 2U);
    EXPECT_FALSE(pooling.components[0].mixed.empty());
    for (const int number : pooling.components[0].one_spot) {
        EXPECT_LT(second(number), 1.1 * kThresholdShare * 60.0) << number;
    }
    for (const int number : pooling.components[1].one_spot) {
        EXPECT_LT(first(number), 1.1 * kThresholdShare * 100.0) << number;
    }
    // The true share of the first band in its one-spot fractions, from the bands themselves.
    const auto recovery = pooling.components[0].recovery.value();
    EXPECT_TRUE(recovery.is_lower_bound);
    double alone = 0.0;
    double all = 0.0;
    for (int number = 1; number <= 40; ++number) {
        const auto &one_spot = pooling.components[0].one_spot;
        const bool is_alone = std::find(one_spot.begin(), one_spot.end(), number) != one_spot.end();
        all += first(number);
        alone += is_alone ? first(number) : 0.0;
    }
    EXPECT_LE(recovery.one_spot, alone / all);
    EXPECT_GT(recovery.one_spot, 0.5);
}

TEST(FindBands, TheFractionOfADeepValleyHoldsBoth) {
    const TraceBands bands = find_bands(signals({0, 100, 10, 100, 0}), 0.0);
    const Pooling pooling = judge_fractions(bands.run);
    EXPECT_EQ(pooling.components[0].one_spot, (Numbers{2}));
    EXPECT_EQ(pooling.components[0].mixed, (Numbers{3}));
    EXPECT_EQ(pooling.components[1].one_spot, (Numbers{4}));
}

TEST(FindBands, AShallowValleyIsAShoulderAndNoiseIsNot) {
    const TraceBands shoulder = find_bands(signals({10, 100, 55, 70, 10}), 0.0);
    EXPECT_EQ(shoulder.run.components.size(), 1U);
    EXPECT_EQ(shoulder.shoulders, (Numbers{4}));
    const TraceBands noise = find_bands(signals({10, 100, 95, 98, 10}), 0.0);
    EXPECT_EQ(noise.run.components.size(), 1U);
    EXPECT_TRUE(noise.shoulders.empty());
}

TEST(FindBands, ALevelTopIsOnePeak) {
    EXPECT_EQ(find_bands(signals({1, 50, 50, 50, 1}), 0.0).run.components.size(), 1U);
    EXPECT_EQ(find_bands(signals({50, 50, 50}), 0.0).run.components.size(), 1U);
}

TEST(FindBands, NoSignalIsNoBand) {
    EXPECT_TRUE(find_bands(signals({0, 0, -3}), 0.0).run.components.empty());
    EXPECT_TRUE(find_bands(signals({2, 2}), 2.0).run.components.empty());
}

} // namespace
} // namespace cospot::fractions
