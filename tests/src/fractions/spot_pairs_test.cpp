#include "fractions/spot_pairs.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot::fractions {
namespace {

using Pairs = std::vector<std::pair<std::size_t, std::size_t>>;

// Propagation of two independent readings to first order, jcgm100, 5.1.2, worked by hand: u(R_F) =
// 0.5/70 sqrt(1 + 0.25) = 0.007986; of a difference sqrt(2) times that, and three of it.
TEST(DefaultTolerance, IsThreeStandardUncertaintiesOfADifference) {
    EXPECT_NEAR(default_tolerance(70.0, 0.5), 0.03388, 1e-5);
    EXPECT_NEAR(default_tolerance(140.0, 0.5), 0.01694, 1e-5);
    EXPECT_EQ(default_tolerance(70.0, 0.0), 0.0);
    EXPECT_THROW((void)default_tolerance(0.0, 0.5), InputError);
    EXPECT_THROW((void)default_tolerance(70.0, -0.5), InputError);
}

TEST(PairSpots, PairsWithinTheToleranceOnly) {
    EXPECT_EQ(pair_spots({0.6, 0.3}, {0.61, 0.31}, 0.02), (Pairs{{0, 0}, {1, 1}}));
    EXPECT_EQ(pair_spots({0.6}, {0.58}, 0.02), (Pairs{{0, 0}}));
    EXPECT_EQ(pair_spots({0.6}, {0.579}, 0.02), Pairs{});
    EXPECT_EQ(pair_spots({}, {0.5}, 0.02), Pairs{});
}

TEST(PairSpots, AGoodPairBeatsTwoPoorOnes) {
    // 0.50 is gone and 0.44 is new; pairing all three by order would be wrong.
    EXPECT_EQ(pair_spots({0.50, 0.47}, {0.47, 0.44}, 0.034), (Pairs{{1, 0}}));
    // Both have moved by 0.01: here pairing both is right.
    EXPECT_EQ(pair_spots({0.50, 0.47}, {0.49, 0.46}, 0.034), (Pairs{{0, 0}, {1, 1}}));
}

TEST(PairSpots, NeverCrosses) {
    const auto pairs = pair_spots({0.52, 0.50, 0.48}, {0.51, 0.49, 0.47}, 0.05);
    for (std::size_t i = 1; i < pairs.size(); ++i) {
        EXPECT_LT(pairs[i - 1].first, pairs[i].first);
        EXPECT_LT(pairs[i - 1].second, pairs[i].second);
    }
    EXPECT_EQ(pairs.size(), 3U);
}

TEST(PairSpots, WithoutToleranceOnlyEqualValuesPair) {
    EXPECT_EQ(pair_spots({0.5, 0.4}, {0.5, 0.41}, 0.0), (Pairs{{0, 0}}));
}

} // namespace
} // namespace cospot::fractions
