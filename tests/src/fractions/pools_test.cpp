#include "fractions/pools.h"

#include "columns.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot::fractions {
namespace {

using Numbers = std::vector<int>;

ColumnRun two_bands() {
    return column({weighed_lane(1, {}), weighed_lane(2, {{0.6, 1.0}}),
                   weighed_lane(3, {{0.6, 60.0}}), weighed_lane(4, {{0.6, 39.0}, {0.4, 5.0}}),
                   weighed_lane(5, {{0.4, 45.0}}), weighed_lane(7, {{0.4, 50.0}}),
                   weighed_lane(9, {})});
}

TEST(JudgeFractions, SortsFractionsIntoNoSpotOneSpotMixedAndNotSeen) {
    const Pooling pooling = judge_fractions(two_bands());
    EXPECT_EQ(pooling.states[0], FractionState::no_spot);
    EXPECT_EQ(pooling.states[1], FractionState::one_spot);
    EXPECT_EQ(pooling.states[3], FractionState::mixed);
    EXPECT_EQ(pooling.no_spot, (Numbers{1, 9}));
    EXPECT_EQ(pooling.not_seen, (std::vector<FractionRange>{{6, 6}, {8, 8}}));
    EXPECT_EQ(pooling.components[0].one_spot, (Numbers{2, 3}));
    EXPECT_EQ(pooling.components[0].mixed, (Numbers{4}));
    ASSERT_EQ(pooling.mixed.size(), 1U);
    EXPECT_EQ(pooling.mixed[0].components, (std::vector<std::size_t>{0, 1}));
}

TEST(JudgeFractions, AFractionThatNobodyLookedAtIsNeverCalledEmpty) {
    const Pooling pooling = judge_fractions(two_bands());
    EXPECT_EQ(pooling.components[1].not_seen, (std::vector<FractionRange>{{6, 6}}));
    EXPECT_TRUE(pooling.components[0].not_seen.empty());
    EXPECT_TRUE(pooling.components[1].missed.empty());
}

TEST(JudgeFractions, TellsAFractionWithinABandWithoutItsSpot) {
    const Pooling pooling =
        judge_fractions(column({lane(1, {0.5}), lane(2, {0.3}), lane(3, {0.5, 0.3})}));
    EXPECT_EQ(pooling.components[0].missed, (Numbers{2}));
}

TEST(JudgeFractions, ReportsBandsThatMayGoOnBeyondThePlatedFractions) {
    const Pooling whole = judge_fractions(column({lane(1, {0.6}), lane(2, {})}));
    EXPECT_TRUE(whole.open_start.empty()); // nothing comes before fraction 1
    EXPECT_TRUE(whole.open_end.empty());
    const Pooling part = judge_fractions(column({lane(4, {0.6}), lane(5, {0.6, 0.4})}));
    EXPECT_EQ(part.open_start, (std::vector<std::size_t>{0}));
    EXPECT_EQ(part.open_end, (std::vector<std::size_t>{0, 1}));
}

TEST(JudgeFractions, RecoveryIsTheShareOfIntensityInOneSpotFractions) {
    const Pooling pooling = judge_fractions(two_bands());
    EXPECT_NEAR(pooling.components[0].recovery.value().one_spot, 0.61, 1e-12);
    EXPECT_NEAR(pooling.components[1].recovery.value().one_spot, 0.95, 1e-12);
    EXPECT_FALSE(pooling.components[0].recovery->by_volume);
    EXPECT_FALSE(pooling.components[0].recovery->is_lower_bound);
}

TEST(JudgeFractions, RecoveryDoesNotDependOnTheUnitNorOnOtherComponents) {
    ColumnRun run = two_bands();
    for (BandSpot &spot : run.components[1].spots) {
        spot.intensity = 1000.0 * spot.intensity.value();
    }
    const Pooling pooling = judge_fractions(run);
    EXPECT_NEAR(pooling.components[0].recovery.value().one_spot, 0.61, 1e-12);
    EXPECT_NEAR(pooling.components[1].recovery.value().one_spot, 0.95, 1e-12);
}

TEST(JudgeFractions, VolumesWeighIntensitiesWhereAllAreKnown) {
    ColumnRun run = two_bands();
    for (Fraction &fraction : run.fractions) {
        fraction.volume_ml = fraction.number == 3 ? 20.0 : 10.0;
    }
    const auto recovery = judge_fractions(run).components[0].recovery.value();
    EXPECT_TRUE(recovery.by_volume);
    EXPECT_NEAR(recovery.one_spot, (10.0 + 1200.0) / (10.0 + 1200.0 + 390.0), 1e-12);
    run.fractions[2].volume_ml.reset();
    EXPECT_FALSE(judge_fractions(run).components[0].recovery.value().by_volume);
}

TEST(JudgeFractions, NoRecoveryWhereAnIntensityIsMissingOrAllAreZero) {
    ColumnRun run = two_bands();
    run.components[0].spots[1].intensity.reset();
    EXPECT_FALSE(judge_fractions(run).components[0].recovery.has_value());
    EXPECT_TRUE(judge_fractions(run).components[1].recovery.has_value());
    const ColumnRun nothing = column({weighed_lane(1, {{0.5, 0.0}})});
    EXPECT_FALSE(judge_fractions(nothing).components[0].recovery.has_value());
}

// A Gaussian band, cut at one standard deviation behind its maximum: the normal distribution has
// 0.8413 of it before the cut (recomputed).
TEST(JudgeFractions, RecoveryOfAGaussianBandMatchesTheNormalDistribution) {
    std::vector<Lane> lanes;
    for (int number = 1; number <= 401; ++number) {
        const double z = (number - 200.5) / 40.0;
        const double intensity = std::exp(-z * z / 2);
        lanes.push_back(number <= 240 ? weighed_lane(number, {{0.5, intensity}})
                                      : weighed_lane(number, {{0.5, intensity}, {0.3, 1.0}}));
    }
    const Pooling pooling = judge_fractions(column(lanes));
    EXPECT_NEAR(pooling.components[0].recovery.value().one_spot, 0.8413, 0.0005);
}

TEST(JudgeFractions, WeakEdgesAreBelowATwentiethOfTheStrongest) {
    const Pooling pooling =
        judge_fractions(column({weighed_lane(1, {{0.5, 4.9}}), weighed_lane(2, {{0.5, 100.0}}),
                                weighed_lane(3, {{0.5, 2.0}}), weighed_lane(4, {{0.5, 50.0}}),
                                weighed_lane(5, {{0.5, 5.0}}), weighed_lane(6, {{0.5, 1.0}})}));
    EXPECT_EQ(pooling.components[0].weak_edges, (Numbers{1, 6})); // 3 is no edge
    EXPECT_TRUE(judge_fractions(column({lane(1, {0.5})})).components[0].weak_edges.empty());
}

TEST(JudgeFractions, MassesAddUpAndTellHowManyAreKnown) {
    ColumnRun run = two_bands();
    run.fractions[1].mass_mg = 2.0;
    run.fractions[3].mass_mg = 30.0;
    const Pooling pooling = judge_fractions(run);
    EXPECT_DOUBLE_EQ(pooling.components[0].one_spot_mass_mg.total, 2.0);
    EXPECT_EQ(pooling.components[0].one_spot_mass_mg.known, 1U);
    EXPECT_EQ(pooling.components[0].one_spot_mass_mg.of, 2U);
    EXPECT_DOUBLE_EQ(pooling.mixed[0].mass_mg.total, 30.0);
}

TEST(JudgeFractions, MixedFractionsArePooledByWhatTheyHold) {
    const Pooling pooling = judge_fractions(column(
        {lane(1, {0.6, 0.4}), lane(2, {0.6, 0.4}), lane(3, {0.4, 0.2}), lane(5, {0.4, 0.2})}));
    ASSERT_EQ(pooling.mixed.size(), 3U);
    EXPECT_EQ(pooling.mixed[0].fractions, (Numbers{1, 2}));
    EXPECT_EQ(pooling.mixed[1].fractions, (Numbers{3}));
    EXPECT_EQ(pooling.mixed[2].fractions, (Numbers{5})); // nobody looked at 4
}

} // namespace
} // namespace cospot::fractions
