#include "matcher/run_shift.h"

#include "shifting_library.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace cospot::matcher {
namespace {

using Features = std::vector<std::vector<Observation>>;

/// Features of a run in which the given compounds stand `shift` above the library's means.
Features shifted(const SystemModel &system, const std::vector<std::size_t> &compounds,
                 double shift) {
    Features features;
    for (const std::size_t compound : compounds) {
        features.push_back({{0, system.candidates[compound].location + shift, 0.3}});
    }
    return features;
}

TEST(RunShift, IsFoundFromFeaturesOfWhichSomeAreUnlisted) {
    const Knowledge knowledge{{shifting_system(even_indices(20), 3.0)}, {}};
    for (const double shift : {-4.0, 0.0, 4.0}) {
        Features features = shifted(knowledge.systems[0], {1, 4, 5, 9, 12, 17}, shift);
        for (const double elsewhere : {1009.0, 1210.0, 1678.0}) {
            features.push_back({{0, elsewhere, 0.3}});
        }
        const RunShift found =
            estimate_shifts(features, knowledge, nearby_candidates(knowledge), {}).at(0);
        EXPECT_NEAR(found.mean, shift, 0.5);
        // Six readings of scatter about 0.6 each.
        EXPECT_LT(std::sqrt(found.variance), 0.5);
        EXPECT_GT(std::sqrt(found.variance), 0.1);
    }
}

TEST(RunShift, StaysUnknownWithTwoFeatures) {
    const Knowledge knowledge{{shifting_system(even_indices(20), 3.0)}, {}};
    const RunShift prior = knowledge.systems[0].shift;
    ASSERT_GT(prior.variance, 1.0);
    const RunShift two = estimate_shifts(shifted(knowledge.systems[0], {1, 4}, 4.0), knowledge,
                                         nearby_candidates(knowledge), {})
                             .at(0);
    EXPECT_EQ(two.mean, 0.0);
    EXPECT_EQ(two.variance, prior.variance);
    const RunShift three = estimate_shifts(shifted(knowledge.systems[0], {1, 4, 9}, 4.0), knowledge,
                                           nearby_candidates(knowledge), {})
                               .at(0);
    EXPECT_NEAR(three.mean, 4.0, 0.7);
}

TEST(RunShift, IsNoneWhereRunsOfTheLibraryDoNotShift) {
    const Knowledge knowledge{{shifting_system(even_indices(20), 0.0)}, {}};
    const RunShift found = estimate_shifts(shifted(knowledge.systems[0], {1, 4, 9, 12}, 0.5),
                                           knowledge, nearby_candidates(knowledge), {})
                               .at(0);
    EXPECT_LT(std::abs(found.mean), 0.5);
    EXPECT_LE(found.variance, knowledge.systems[0].shift.variance);
}

TEST(RunShift, EachSystemHasItsOwn) {
    const Knowledge knowledge{
        {shifting_system(even_indices(20), 3.0), shifting_system(even_indices(10), 3.0)}, {}};
    Features features;
    for (const std::size_t compound : {1U, 3U, 5U, 8U}) {
        features.push_back({{0, knowledge.systems[0].candidates[compound].location + 3.0, 0.3},
                            {1, knowledge.systems[1].candidates[compound].location - 2.0, 0.3}});
    }
    const auto found = estimate_shifts(features, knowledge, nearby_candidates(knowledge), {});
    ASSERT_EQ(found.size(), 2U);
    EXPECT_NEAR(found[0].mean, 3.0, 0.5);
    EXPECT_NEAR(found[1].mean, -2.0, 0.5);
}

TEST(RunShift, FeaturesThatFitNothingSayNothing) {
    const Knowledge knowledge{{shifting_system(even_indices(20), 3.0)}, {}};
    const Features features{{{0, 1023.0, 0.3}}, {{0, 1227.0, 0.3}}, {{0, 1678.0, 0.3}}};
    const RunShift found =
        estimate_shifts(features, knowledge, nearby_candidates(knowledge), {}).at(0);
    EXPECT_NEAR(found.mean, 0.0, 0.5);
    EXPECT_NEAR(found.variance, knowledge.systems[0].shift.variance,
                0.3 * knowledge.systems[0].shift.variance);
}

TEST(RunShift, UnlistedNeighboursDoNotPullIt) {
    const Knowledge knowledge{{shifting_system(even_indices(20), 3.0)}, {}};
    Features features = shifted(knowledge.systems[0], {1, 9, 17}, 0.0);
    const double agreed =
        estimate_shifts(features, knowledge, nearby_candidates(knowledge), {}).at(0).mean;
    for (const double neighbour : {1005.5, 1107.0, 1208.5, 1410.0}) {
        features.push_back({{0, neighbour, 0.3}});
    }
    EXPECT_NEAR(estimate_shifts(features, knowledge, nearby_candidates(knowledge), {}).at(0).mean,
                agreed, 0.3);
}

TEST(RunShift, KnowingItMakesACandidateWinThatWouldLose) {
    // Compounds 20 and 21 stand 4 apart; the run is shifted by 4, and the feature is the first.
    std::vector<double> indices = even_indices(20);
    indices.insert(indices.end(), {2200.0, 2204.0});
    const Knowledge knowledge{{shifting_system(indices, 3.0)}, {}};
    Features features = shifted(knowledge.systems[0], {1, 4, 5, 9, 12, 20}, 4.0);
    const auto advantage = [&](std::span<const RunShift> shifts) {
        const auto ratios =
            likelihood_ratios(features.back(), knowledge, nearby_candidates(knowledge), shifts);
        const auto of = [&](std::size_t compound) {
            return std::find_if(ratios.begin(), ratios.end(),
                                [&](const auto &ratio) { return ratio.compound == compound; })
                ->log_ratio;
        };
        return of(20) - of(21);
    };
    EXPECT_LT(advantage(unknown_shifts(knowledge)), 0.0);
    EXPECT_GT(advantage(estimate_shifts(features, knowledge, nearby_candidates(knowledge), {})),
              2.0);
}

TEST(RunShift, CensoredSpotsDoNotCount) {
    std::vector<KnownValue> values;
    for (std::size_t compound = 0; compound < 9; ++compound) {
        for (std::int64_t run = 0; run < 8; ++run) {
            values.push_back(
                {compound, run, true,
                 0.1 + 0.1 * static_cast<double>(compound) + (run % 2 == 0 ? 0.015 : -0.015)});
        }
    }
    const Knowledge knowledge{{fit_system(Quantity::Rf, values)}, {}};
    ASSERT_GT(knowledge.systems[0].shift.variance, 0.0);
    Features features{{{0, 0.32, 0.005}}, {{0, 0.52, 0.005}}, {{0, 0.0, 0.005}}};
    EXPECT_EQ(estimate_shifts(features, knowledge, nearby_candidates(knowledge), {}).at(0).mean,
              0.0);
    features.push_back({{0, 0.72, 0.005}});
    EXPECT_GT(estimate_shifts(features, knowledge, nearby_candidates(knowledge), {}).at(0).mean,
              0.0);
}

} // namespace
} // namespace cospot::matcher
