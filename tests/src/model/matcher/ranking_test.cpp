#include "model/matcher/groups.h"
#include "model/matcher/ranking.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace cospot::matcher {
namespace {

double total(const Ranking &ranking) {
    double sum = ranking.unlisted;
    for (const RankedCandidate &candidate : ranking.candidates) {
        sum += candidate.probability;
    }
    return sum;
}

/// Compounds at the given indices, three runs each, one unit of spread.
SystemModel index_system(const std::vector<double> &indices) {
    std::vector<KnownValue> values;
    for (std::size_t compound = 0; compound < indices.size(); ++compound) {
        for (int run = 0; run < 3; ++run) {
            values.push_back({compound, run, true, indices[compound] + run - 1});
        }
    }
    return fit_system(Technique::gc, Quantity::RI, values);
}

/// A reading of a run of which it is known that it lies as the library does.
Observation on_the_library(double value, double uncertainty) {
    return {0, value, uncertainty, {{1.0, {}}}};
}

double probability_of(const Ranking &ranking, std::size_t compound) {
    for (const RankedCandidate &candidate : ranking.candidates) {
        if (candidate.compound == compound) {
            return candidate.probability;
        }
    }
    return 0.0;
}

TEST(Ranking, PutsTheNearestCompoundFirstAndSumsToOne) {
    const std::vector<SystemModel> systems{index_system({900, 950, 1000, 1100, 1200, 1300})};
    const std::vector<Observation> observations{{0, 1001.0, 0.5}};
    const Ranking ranking =
        rank_candidates(observations, {systems, {}}, nearby_candidates({systems, {}}), {});
    ASSERT_EQ(ranking.candidates.size(), 6U);
    EXPECT_EQ(ranking.candidates[0].compound, 2U);
    EXPECT_GT(ranking.candidates[0].probability, 0.9);
    EXPECT_NEAR(total(ranking), 1.0, 1e-12);
}

TEST(Ranking, FarFromEveryCompoundIsUnlisted) {
    const std::vector<SystemModel> systems{index_system({900, 950, 1000, 1100, 1200, 1300})};
    const auto unlisted_of = [&](const Observation &observation) {
        const std::vector<Observation> observations{observation};
        return rank_candidates(observations, {systems, {}}, nearby_candidates({systems, {}}), {})
            .unlisted;
    };
    const double in_known_run = unlisted_of(on_the_library(1150.0, 0.5));
    EXPECT_GT(in_known_run, 0.95);
    // Of a run that nothing is known of an accident may have moved a compound there.
    EXPECT_GT(unlisted_of({0, 1150.0, 0.5}), 0.7);
    EXPECT_LT(unlisted_of({0, 1150.0, 0.5}), in_known_run);
}

TEST(Ranking, PriorShiftsTheOddsByItsOwnRatio) {
    const std::vector<SystemModel> systems{index_system({1000, 1003, 1100, 1200, 1300, 1400})};
    const std::vector<Observation> observations{{0, 1001.5, 0.5}};
    Prior even;
    Prior weighted;
    weighted.weights = {3.0, 1.0, 1.0, 1.0, 1.0, 1.0};
    const auto odds = [&](const Prior &prior) {
        const Ranking ranking =
            rank_candidates(observations, {systems, {}}, nearby_candidates({systems, {}}), prior);
        return probability_of(ranking, 0) / probability_of(ranking, 1);
    };
    EXPECT_NEAR(odds(weighted) / odds(even), 3.0, 1e-9);
    Prior wary;
    wary.unlisted = 0.9;
    EXPECT_GT(rank_candidates(observations, {systems, {}}, nearby_candidates({systems, {}}), wary)
                  .unlisted,
              rank_candidates(observations, {systems, {}}, nearby_candidates({systems, {}}), even)
                  .unlisted);
}

TEST(Ranking, SeveralSystemsMultiply) {
    // Two compounds coincide on the first system and differ on the second.
    const std::vector<SystemModel> systems{index_system({1000, 1000, 1200, 1300, 1400}),
                                           index_system({1500, 1600, 1700, 1800, 1900})};
    const std::vector<Observation> one{{0, 1000.0, 0.0}};
    EXPECT_NEAR(probability_of(
                    rank_candidates(one, {systems, {}}, nearby_candidates({systems, {}}), {}), 0),
                probability_of(
                    rank_candidates(one, {systems, {}}, nearby_candidates({systems, {}}), {}), 1),
                1e-9);
    const std::vector<Observation> both{{0, 1000.0, 0.0}, {1, 1600.5, 0.0}};
    EXPECT_GT(probability_of(
                  rank_candidates(both, {systems, {}}, nearby_candidates({systems, {}}), {}), 1),
              0.95);
}

TEST(Ranking, NoValueOnASystemLeavesTheOddsUnchanged) {
    const std::vector<SystemModel> systems{index_system({1000, 1100, 1200, 1300, 1400}),
                                           index_system({1500})};
    const std::vector<Observation> both{{0, 1200.0, 0.0}, {1, 1700.0, 0.0}};
    const std::vector<Observation> first{{0, 1200.0, 0.0}};
    const auto odds = [&](const std::vector<Observation> &observations) {
        const Ranking ranking =
            rank_candidates(observations, {systems, {}}, nearby_candidates({systems, {}}), {});
        return probability_of(ranking, 2) / ranking.unlisted;
    };
    EXPECT_NEAR(odds(both) / odds(first), 1.0, 1e-9);
}

TEST(Ranking, WithoutAnyCandidateEverythingIsUnlisted) {
    const std::vector<SystemModel> systems{fit_system(Technique::gc, Quantity::RI, {})};
    const std::vector<Observation> observations{{0, 1000.0, 0.0}};
    const Ranking ranking =
        rank_candidates(observations, {systems, {}}, nearby_candidates({systems, {}}), {});
    EXPECT_TRUE(ranking.candidates.empty());
    EXPECT_EQ(ranking.unlisted, 1.0);
}

TEST(Ranking, SaysHowFarOffACandidateIs) {
    const std::vector<SystemModel> systems{index_system({1000, 1100})};
    const std::vector<Observation> observations{on_the_library(1003.0, 0.5)};
    const auto comparisons = compare(0, observations, systems);
    ASSERT_EQ(comparisons.size(), 1U);
    EXPECT_DOUBLE_EQ(comparisons[0].expected, 1000.0);
    EXPECT_DOUBLE_EQ(comparisons[0].deviation, 3.0);
    EXPECT_GT(comparisons[0].spread, 0.5);
    EXPECT_EQ(comparisons[0].runs, 3U);
}

TEST(Ranking, StatedProbabilitiesComeTrueOnDataDrawnFromTheModel) {
    // Compounds with normal replicate scatter; features are drawn from them, one in five from
    // outside. Among all statements "probability about p", a share p must be right.
    std::mt19937 engine(7);
    std::uniform_real_distribution<double> place(800.0, 1600.0);
    std::normal_distribution<double> noise(0.0, 3.0);
    std::vector<double> truth(60);
    std::vector<KnownValue> values;
    for (std::size_t compound = 0; compound < truth.size(); ++compound) {
        truth[compound] = place(engine);
        for (int run = 0; run < 4; ++run) {
            values.push_back({compound, run, true, truth[compound] + noise(engine)});
        }
    }
    const std::vector<SystemModel> systems{fit_system(Technique::gc, Quantity::RI, values)};
    double stated = 0.0;
    double right = 0.0;
    double error = 0.0;
    constexpr int queries = 4000;
    for (int i = 0; i < queries; ++i) {
        const bool is_unlisted = i % 5 == 0;
        const std::size_t compound = static_cast<std::size_t>(i) % truth.size();
        const double x = (is_unlisted ? place(engine) : truth[compound]) + noise(engine);
        const std::vector<Observation> observations{on_the_library(x, 0.0)};
        const Ranking ranking =
            rank_candidates(observations, {systems, {}}, nearby_candidates({systems, {}}), {});
        const bool says_unlisted = ranking.unlisted > ranking.candidates[0].probability;
        const double p = std::max(ranking.unlisted, ranking.candidates[0].probability);
        const bool is_right = says_unlisted
                                  ? is_unlisted
                                  : !is_unlisted && ranking.candidates[0].compound == compound;
        stated += p;
        right += is_right ? 1.0 : 0.0;
        error += p - (is_right ? 1.0 : 0.0);
    }
    EXPECT_GT(right / queries, 0.4);
    EXPECT_NEAR(error / queries, 0.0, 0.04)
        << "stated " << stated / queries << ", right " << right / queries;
}

TEST(CandidateSet, IsTheShortestListWithTheCoverage) {
    Ranking ranking;
    ranking.candidates = {{0, 0.6}, {1, 0.2}, {2, 0.05}};
    ranking.unlisted = 0.15;
    EXPECT_EQ(candidate_set(ranking, 0.5).candidates, 1U);
    EXPECT_FALSE(candidate_set(ranking, 0.5).unlisted);
    EXPECT_EQ(candidate_set(ranking, 0.95).candidates, 2U);
    EXPECT_TRUE(candidate_set(ranking, 0.95).unlisted);
    EXPECT_EQ(candidate_set(ranking, 1.0).candidates, 3U);
}

TEST(Ranking, EqualProbabilitiesAreOrderedByCompound) {
    Ranking ranking;
    ranking.candidates = {{3, 0.25 * (1 + 1e-14)}, {1, 0.25},  {2, 0.25 * (1 - 1e-14)}, {5, 0.1},
                          {4, 0.1 * (1 + 1e-6)},   {0, 1e-300}};
    sort_by_probability(ranking);
    std::vector<std::size_t> order;
    for (const RankedCandidate &candidate : ranking.candidates) {
        order.push_back(candidate.compound);
    }
    EXPECT_EQ(order, (std::vector<std::size_t>{1, 2, 3, 4, 5, 0}));
}

TEST(Groups, CoelutingCandidatesFormOneGroup) {
    const std::vector<SystemModel> systems{index_system({1000, 1000.1, 1020, 1100, 1200})};
    const std::vector<Observation> observations{{0, 1000.0, 0.0}};
    const Ranking ranking =
        rank_candidates(observations, {systems, {}}, nearby_candidates({systems, {}}), {});
    const std::vector<std::string> skeletons{"A", "B", "C"};
    const auto groups = group_candidates(ranking, observations, systems, skeletons);
    ASSERT_EQ(groups.size(), 2U);
    EXPECT_EQ(groups[0].members.size(), 2U);
    EXPECT_NEAR(groups[0].probability,
                ranking.candidates[0].probability + ranking.candidates[1].probability, 1e-12);
}

TEST(Groups, StereoisomersNeedAClearDifference) {
    const std::vector<SystemModel> systems{index_system({1000, 1001.5, 1100, 1200, 1300})};
    const std::vector<Observation> observations{{0, 1000.5, 0.0}};
    const Ranking ranking =
        rank_candidates(observations, {systems, {}}, nearby_candidates({systems, {}}), {});
    const std::vector<std::string> isomers{"A", "A"};
    const std::vector<std::string> different{"A", "B"};
    EXPECT_EQ(group_candidates(ranking, observations, systems, isomers).size(), 1U);
    EXPECT_EQ(group_candidates(ranking, observations, systems, different).size(), 2U);
}

} // namespace
} // namespace cospot::matcher
