#include "fractions/components.h"

#include "columns.h"

#include <gtest/gtest.h>

namespace cospot::fractions {
namespace {

using Numbers = std::vector<int>;

TEST(FindComponents, FollowsBandsAndNamesThemAsTheyLeave) {
    const ColumnRun run = column({lane(1, {}), lane(2, {0.61}), lane(3, {0.62, 0.40}),
                                  lane(4, {0.41}), lane(5, {0.40}), lane(6, {})});
    ASSERT_EQ(run.components.size(), 2U);
    EXPECT_EQ(run.components[0].name, "A");
    EXPECT_NEAR(run.components[0].rf.value(), 0.615, 1e-12);
    EXPECT_EQ(numbers_of(run, 0), (Numbers{2, 3}));
    EXPECT_EQ(numbers_of(run, 1), (Numbers{3, 4, 5}));
}

TEST(FindComponents, LetsTheRfDriftSlowly) {
    std::vector<Lane> lanes;
    for (int i = 0; i < 10; ++i) {
        lanes.push_back(lane(i + 1, {0.50 - 0.01 * i}));
    }
    EXPECT_EQ(column(lanes).components.size(), 1U);
}

TEST(FindComponents, TwoSpotsOfOneFractionAreTwoComponentsHoweverClose) {
    EXPECT_EQ(column({lane(1, {0.50, 0.49}), lane(2, {0.50, 0.49})}).components.size(), 2U);
}

TEST(FindComponents, BridgesOneFractionWithoutASpotButNotTwo) {
    const ColumnRun bridged = column({lane(1, {0.5}), lane(2, {}), lane(3, {0.5})});
    EXPECT_EQ(bridged.components.size(), 1U);
    const ColumnRun ended = column({lane(1, {0.5}), lane(2, {}), lane(3, {}), lane(4, {0.5})});
    EXPECT_EQ(ended.components.size(), 2U);
}

TEST(FindComponents, FractionsThatNobodyPlatedDoNotEndABand) {
    const ColumnRun run = column({lane(1, {0.5}), lane(20, {0.5})});
    ASSERT_EQ(run.components.size(), 1U);
    EXPECT_EQ(numbers_of(run, 0), (Numbers{1, 20}));
}

TEST(FindComponents, ANewSpotBetweenTwoBandsIsAThirdComponent) {
    const ColumnRun run =
        column({lane(1, {0.60, 0.40}), lane(2, {0.60, 0.50, 0.40}), lane(3, {0.50, 0.40})});
    ASSERT_EQ(run.components.size(), 3U);
    EXPECT_EQ(numbers_of(run, 0), (Numbers{1, 2}));
    EXPECT_EQ(numbers_of(run, 1), (Numbers{1, 2, 3}));
    EXPECT_EQ(numbers_of(run, 2), (Numbers{2, 3}));
}

TEST(NameInOrder, GoesOnBehindZ) {
    std::vector<Lane> lanes;
    for (int i = 1; i <= 28; ++i) {
        lanes.push_back(lane(i, {1.0 - 0.035 * i}));
    }
    const ColumnRun run = column(lanes);
    ASSERT_EQ(run.components.size(), 28U);
    EXPECT_EQ(run.components[25].name, "Z");
    EXPECT_EQ(run.components[26].name, "AA");
    EXPECT_EQ(run.components[27].name, "AB");
}

TEST(CentreOf, IsWeightedByIntensityWhereAllSpotsHaveOne) {
    const ColumnRun run = column({weighed_lane(1, {{0.5, 1.0}}), weighed_lane(2, {{0.5, 0.0}}),
                                  weighed_lane(3, {{0.5, 3.0}})});
    EXPECT_DOUBLE_EQ(centre_of(run.components[0], run.fractions), 2.5);
    const ColumnRun unweighed = column({lane(1, {0.5}), lane(2, {0.5}), lane(3, {0.5})});
    EXPECT_DOUBLE_EQ(centre_of(unweighed.components[0], unweighed.fractions), 2.0);
    const ColumnRun nothing =
        column({weighed_lane(1, {{0.5, 0.0}}), weighed_lane(2, {{0.5, 0.0}})});
    EXPECT_DOUBLE_EQ(centre_of(nothing.components[0], nothing.fractions), 1.5);
}

TEST(RangesOf, JoinsNeighbours) {
    EXPECT_EQ(ranges_of({1, 2, 3, 5, 8, 9}), (std::vector<FractionRange>{{1, 3}, {5, 5}, {8, 9}}));
    EXPECT_TRUE(ranges_of({}).empty());
}

} // namespace
} // namespace cospot::fractions
