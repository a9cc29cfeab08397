// How far spots of one component may differ, as the fractions themselves show. Numbers by hand.
#include "fractions/tolerance.h"

#include "columns.h"

#include <gtest/gtest.h>

namespace cospot::fractions {
namespace {

std::vector<Fraction> run_of(const std::vector<std::vector<double>> &spots) {
    std::vector<Lane> lanes;
    for (std::size_t i = 0; i < spots.size(); ++i) {
        lanes.push_back(lane(static_cast<int>(i) + 1, spots[i]));
    }
    return read_together(lanes, 0.03).fractions;
}

TEST(Tolerance, FollowsFromTheScatterOfNeighbours) {
    // Differences +-0.04 throughout: 1.4826 x 0.04 (hampel1974), times three.
    const auto scatter =
        lane_scatter(run_of({{0.50}, {0.54}, {0.50}, {0.54}, {0.50}, {0.54}, {0.50}}));
    ASSERT_TRUE(scatter);
    EXPECT_EQ(scatter->pairs, 6U);
    EXPECT_NEAR(scatter->scatter, 0.0593, 1e-4);
    EXPECT_NEAR(tolerance_of(*scatter, 0.03), 0.1779, 1e-4);
    EXPECT_NEAR(tolerance_of(*scatter, 0.25), 0.25, 1e-12); // reading explains more
}

TEST(Tolerance, IsNoMoreThanHalfTheGapOfTwoSpotsOfOneFraction) {
    const auto scatter = lane_scatter(
        run_of({{0.60, 0.40}, {0.64, 0.44}, {0.60, 0.40}, {0.64, 0.44}, {0.60, 0.40}}));
    ASSERT_TRUE(scatter);
    EXPECT_EQ(scatter->pairs, 8U);
    EXPECT_NEAR(scatter->least_gap.value(), 0.20, 1e-12);
    EXPECT_NEAR(tolerance_of(*scatter, 0.03), 0.10, 1e-12);
}

TEST(Tolerance, ABandThatFollowsAnotherDoesNotWidenIt) {
    const auto scatter =
        lane_scatter(run_of({{0.60}, {0.60}, {0.60}, {0.60}, {0.30}, {0.30}, {0.30}, {0.30}}));
    ASSERT_TRUE(scatter);
    EXPECT_EQ(scatter->scatter, 0.0);
    EXPECT_EQ(tolerance_of(*scatter, 0.03), 0.03);
}

TEST(Tolerance, FewPairsTellNothing) {
    EXPECT_FALSE(lane_scatter(run_of({{0.5}, {0.6}, {0.5}, {0.6}})));
    EXPECT_FALSE(lane_scatter({}));
    EXPECT_FALSE(lane_scatter(run_of({{0.0}, {0.0}, {0.0}, {0.0}, {0.0}, {0.0}, {0.0}, {0.0}})));
}

} // namespace
} // namespace cospot::fractions
