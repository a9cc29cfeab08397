#include "model/transfer/local_scatter.h"

#include "simulated_compounds.h"

#include <gtest/gtest.h>

#include <vector>

namespace cospot::transfer {
namespace {

TEST(LocalScatter, FollowsThePositions) {
    Draws draws(7);
    std::vector<double> positions;
    std::vector<double> misses;
    for (int i = 0; i < 1600; ++i) {
        positions.push_back(i / 400.0);
        misses.push_back((i < 800 ? 0.5 : 1.5) * draws.normal());
    }
    const LocalScatter scatter = fit_scatter(positions, misses);
    // Each is pulled towards the mean of all by a weight of 10 points in 410.
    EXPECT_NEAR(scatter_at(scatter, 0.5), 0.5 + 10.0 / 410.0 * 0.5, 0.05);
    EXPECT_NEAR(scatter_at(scatter, 3.5), 1.5 - 10.0 / 410.0 * 0.5, 0.15);
    EXPECT_DOUBLE_EQ(scatter_at(scatter, -9.0), scatter_at(scatter, 0.0));
    EXPECT_DOUBLE_EQ(scatter_at(scatter, 9.0), scatter_at(scatter, 1599 / 400.0));
}

TEST(LocalScatter, FarOutMissesCountAsSixTypicalOnes) {
    Draws draws(8);
    std::vector<double> positions;
    std::vector<double> misses;
    for (int i = 0; i < 200; ++i) {
        positions.push_back(i);
        misses.push_back(0.2 * draws.normal());
    }
    const double before = scatter_at(fit_scatter(positions, misses), 100.0);
    misses[100] = 1000.0;
    EXPECT_LT(scatter_at(fit_scatter(positions, misses), 100.0), before + 0.06);
}

TEST(LocalScatter, TheOrderOfThePointsDoesNotMatter) {
    const LocalScatter one = fit_scatter({3.0, 1.0, 2.0}, {0.3, -0.1, 0.2});
    const LocalScatter other = fit_scatter({1.0, 2.0, 3.0}, {-0.1, 0.2, 0.3});
    EXPECT_EQ(one.positions, other.positions);
    EXPECT_EQ(one.misses, other.misses);
}

} // namespace
} // namespace cospot::transfer
