#include "transfer/local_trend.h"

#include "simulated_compounds.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>

namespace cospot::transfer {
namespace {

struct Points {
    std::vector<double> positions;
    std::vector<double> values;
};

Points scattered(std::uint32_t seed, std::size_t count, double deviation,
                 const std::function<double(double)> &curve) {
    Draws draws(seed);
    Points points;
    for (std::size_t i = 0; i < count; ++i) {
        const double position = draws.even(-2.0, 2.0);
        points.positions.push_back(position);
        points.values.push_back(curve(position) + deviation * draws.normal());
    }
    return points;
}

double bend(double position) {
    return position * position;
}

double nothing(double) {
    return 0.0;
}

TEST(LocalTrend, RecoversABend) {
    const Points points = scattered(1, 200, 0.2, bend);
    const LocalTrend trend = fit_trend(points.positions, points.values);
    for (const double position : {-1.5, -0.5, 0.0, 0.5, 1.5}) {
        EXPECT_NEAR(trend_at(trend, position), bend(position), 0.2) << position;
    }
    EXPECT_NEAR(trend.typical_miss, 0.2, 0.05);
}

TEST(LocalTrend, RecoversAStraightLine) {
    const Points points = scattered(2, 60, 0.1, [](double position) { return 3.0 * position; });
    const LocalTrend trend = fit_trend(points.positions, points.values);
    for (const double position : {-1.5, 0.0, 1.5}) {
        EXPECT_NEAR(trend_at(trend, position), 3.0 * position, 0.15) << position;
    }
}

TEST(LocalTrend, IsAbsentOnPureNoise) {
    // Chance lets a curve pass now and then (8 % of the time at 300 points); it has to be flat.
    int absent = 0;
    for (std::uint32_t seed = 1; seed <= 20; ++seed) {
        const Points points = scattered(seed, 300, 1.0, nothing);
        const LocalTrend trend = fit_trend(points.positions, points.values);
        absent += trend.span == 0.0 ? 1 : 0;
        for (const double position : {-1.5, 0.0, 1.5}) {
            EXPECT_NEAR(trend_at(trend, position), 0.0, 0.6) << seed;
        }
    }
    EXPECT_GE(absent, 16);
}

TEST(LocalTrend, IsAbsentBelowFifteenPoints) {
    const auto span_of = [](std::size_t count) {
        Points points;
        for (std::size_t i = 0; i < count; ++i) {
            points.positions.push_back(static_cast<double>(i));
            points.values.push_back(static_cast<double>(i) - 3.0);
        }
        return fit_trend(points.positions, points.values).span;
    };
    EXPECT_EQ(span_of(14), 0.0);
    EXPECT_GT(span_of(15), 0.0);
}

TEST(LocalTrend, FarOutPointsDoNotBendIt) {
    Points points = scattered(3, 200, 0.2, bend);
    const LocalTrend before = fit_trend(points.positions, points.values);
    for (std::size_t i = 0; i < points.values.size(); i += 10) {
        points.values[i] += 50.0;
    }
    const LocalTrend after = fit_trend(points.positions, points.values);
    for (const double position : {-1.5, -0.5, 0.0, 0.5, 1.5}) {
        EXPECT_NEAR(trend_at(after, position), trend_at(before, position), 0.2) << position;
    }
    EXPECT_NEAR(after.typical_miss, before.typical_miss, 0.1);
}

TEST(LocalTrend, KeepsTheValueOfTheEndBeyondThePoints) {
    const Points points = scattered(4, 100, 0.05, bend);
    const LocalTrend trend = fit_trend(points.positions, points.values);
    ASSERT_GT(trend.span, 0.0);
    EXPECT_DOUBLE_EQ(trend_at(trend, 100.0), trend_at(trend, trend.positions.back()));
    EXPECT_DOUBLE_EQ(trend_at(trend, -100.0), trend_at(trend, trend.positions.front()));
}

TEST(LocalTrend, MissesAreThoseOfLeftOutPoints) {
    // The far-out point has no part in the curve that it is compared with.
    Points points = scattered(5, 60, 0.01, [](double position) { return 2.0 * position; });
    points.positions.push_back(0.25);
    points.values.push_back(0.5 + 3.0);
    const LocalTrend trend = fit_trend(points.positions, points.values);
    for (std::size_t i = 0; i < trend.positions.size(); ++i) {
        const double expected = trend.values[i] - 2.0 * trend.positions[i];
        EXPECT_NEAR(trend.misses[i], expected, 0.05) << trend.positions[i];
    }
}

TEST(LocalTrend, TheOrderOfThePointsDoesNotMatter) {
    const Points points = scattered(6, 50, 0.2, bend);
    const Points reversed{{points.positions.rbegin(), points.positions.rend()},
                          {points.values.rbegin(), points.values.rend()}};
    const LocalTrend one = fit_trend(points.positions, points.values);
    const LocalTrend other = fit_trend(reversed.positions, reversed.values);
    EXPECT_EQ(one.positions, other.positions);
    EXPECT_EQ(one.values, other.values);
    EXPECT_EQ(one.misses, other.misses);
}

TEST(LocalTrend, ScatterFollowsThePositions) {
    Draws draws(7);
    Points points;
    for (int i = 0; i < 1600; ++i) {
        points.positions.push_back(i / 400.0);
        points.values.push_back((i < 800 ? 0.5 : 1.5) * draws.normal());
    }
    const LocalTrend trend = fit_trend(points.positions, points.values);
    // Each is pulled towards the mean of all by a weight of 10 points in 410.
    EXPECT_NEAR(scatter_at(trend, 0.5), 0.5 + 10.0 / 410.0 * 0.5, 0.05);
    EXPECT_NEAR(scatter_at(trend, 3.5), 1.5 - 10.0 / 410.0 * 0.5, 0.15);
}

} // namespace
} // namespace cospot::transfer
