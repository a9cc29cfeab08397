#include "model/matcher/sample.h"

#include "model/matcher/run_registration.h"
#include "shifting_library.h"

#include <gtest/gtest.h>

#include <cmath>
#include <initializer_list>
#include <memory>

namespace cospot::matcher {
namespace {

double probability_of(const Ranking &ranking, std::size_t compound) {
    for (const RankedCandidate &candidate : ranking.candidates) {
        if (candidate.compound == compound) {
            return candidate.probability;
        }
    }
    return 0.0;
}

double total(const Ranking &ranking) {
    double sum = ranking.unlisted;
    for (const RankedCandidate &candidate : ranking.candidates) {
        sum += candidate.probability;
    }
    return sum;
}

/// Twenty compounds at 900, 950, ...; runs do not shift.
Knowledge steady_library() {
    return {{shifting_system(even_indices(20), 0.0)}, {}};
}

/// Features of a run that was not registered.
std::vector<SampleFeature> features_at(std::initializer_list<double> values) {
    std::vector<SampleFeature> features;
    for (const double value : values) {
        features.push_back({{{0, value, 0.2}}, {}});
    }
    return features;
}

/// Features of a run of which it is known that it lies as the library does.
std::vector<SampleFeature> in_known_run(std::vector<SampleFeature> features) {
    for (SampleFeature &feature : features) {
        feature.observations[0].shifts = {{1.0, {}}};
    }
    return features;
}

TEST(Sample, TwoPeaksNearOneCompoundCannotBothBeIt) {
    const Knowledge knowledge = steady_library();
    const auto sample =
        rank_sample(features_at({1000.1, 1001.0}), knowledge, nearby_candidates(knowledge), {});
    ASSERT_EQ(sample.features.size(), 2U);
    const double nearer = probability_of(sample.features[0], 2);
    const double farther = probability_of(sample.features[1], 2);
    EXPECT_GT(nearer, farther);
    EXPECT_LE(nearer + farther, 1.0 + sample.error + 1e-9);
    // By itself either would be the compound.
    for (const double value : {1000.1, 1001.0}) {
        const std::vector<Observation> alone{{0, value, 0.2}};
        EXPECT_GT(
            probability_of(rank_candidates(alone, knowledge, nearby_candidates(knowledge), {}), 2),
            0.6)
            << value;
    }
    for (const Ranking &ranking : sample.features) {
        EXPECT_NEAR(total(ranking), 1.0, 1e-9);
    }
}

TEST(Sample, TheSecondPeakGetsTheCompoundTheFirstLeaves) {
    // Both compounds lie nearest to the first peak; the second one takes the one that is left.
    std::vector<double> indices = even_indices(20);
    indices.insert(indices.end(), {2200.0, 2201.0});
    const Knowledge knowledge{{shifting_system(indices, 0.0)}, {}};
    const auto &candidates = knowledge.systems[0].candidates;
    const auto sample =
        rank_sample(features_at({candidates[20].location - 0.2, candidates[20].location + 0.4}),
                    knowledge, nearby_candidates(knowledge), {});
    EXPECT_EQ(sample.features[0].candidates[0].compound, 20U);
    EXPECT_EQ(sample.features[1].candidates[0].compound, 21U);
    const std::vector<Observation> alone{{0, candidates[20].location + 0.4, 0.2}};
    EXPECT_EQ(
        rank_candidates(alone, knowledge, nearby_candidates(knowledge), {}).candidates[0].compound,
        20U);
}

TEST(Sample, OneFeatureIsRankedAsByItself) {
    const Knowledge knowledge = steady_library();
    Prior prior;
    prior.weights.assign(20, 1.0);
    prior.weights[2] = 3.0;
    for (const double value : {1000.4, 1002.0, 1023.0}) {
        const std::vector<Observation> alone{{0, value, 0.2}};
        const Ranking expected =
            rank_candidates(alone, knowledge, nearby_candidates(knowledge), prior);
        const Ranking ranking = rank_sample(features_at({value}), knowledge,
                                            nearby_candidates(knowledge), {prior, true})
                                    .features.at(0);
        EXPECT_NEAR(ranking.unlisted, expected.unlisted, 1e-9);
        for (std::size_t i = 0; i < expected.candidates.size(); ++i) {
            EXPECT_EQ(ranking.candidates[i].compound, expected.candidates[i].compound);
            EXPECT_NEAR(ranking.candidates[i].probability, expected.candidates[i].probability,
                        1e-9);
        }
    }
}

TEST(Sample, OneFeatureIsRankedAsByItselfWhereTheUserIsNearlySure) {
    const Knowledge knowledge = steady_library();
    Prior prior;
    prior.unlisted = 0.02;
    prior.weights.assign(20, 0.001);
    prior.weights[2] = 1.0;
    const std::vector<Observation> alone{{0, 1003.0, 0.2}};
    const Ranking expected = rank_candidates(alone, knowledge, nearby_candidates(knowledge), prior);
    const Ranking ranking =
        rank_sample(features_at({1003.0}), knowledge, nearby_candidates(knowledge), {prior, true})
            .features.at(0);
    EXPECT_NEAR(ranking.unlisted, expected.unlisted, 1e-9);
}

TEST(Sample, PriorOddsEqualTheDocumentedFormula) {
    // Two features, twenty compounds: each is present with probability 0.8 x 2 / 20 = 0.08, and
    // has to be absent where it explains neither: odds 0.08 / (1 - 0.08 / 2) against the 0.4
    // features that come by chance. The second feature is far from every compound.
    const Knowledge knowledge = steady_library();
    const auto features = features_at({1002.0, 1627.0});
    const Ranking ranking =
        rank_sample(features, knowledge, nearby_candidates(knowledge), {}).features[0];
    const double ratio =
        likelihood_ratios(features[0].observations, knowledge, nearby_candidates(knowledge))
            .at(2)
            .log_ratio;
    EXPECT_NEAR(std::log(probability_of(ranking, 2) / ranking.unlisted) - ratio,
                std::log(0.08 / 0.96 / 0.4), 1e-3);
}

TEST(Sample, LearnsTheShareOfUnlistedFromFiveFeatures) {
    const Knowledge knowledge = steady_library();
    const auto share_of = [&](const std::vector<SampleFeature> &features) {
        return rank_sample(features, knowledge, nearby_candidates(knowledge), {}).unlisted_share;
    };
    // With the prior worth four features of which 0.8 are unlisted: (0.8 + 5) / 9 and 0.8 / 9.
    const auto none = features_at({1022.0, 1127.0, 1325.0, 1478.0, 1623.0});
    EXPECT_NEAR(share_of(in_known_run(none)), 5.8 / 9.0, 0.02);
    // A run that was not registered may have moved: less is learned.
    EXPECT_LT(share_of(none), share_of(in_known_run(none)));
    EXPECT_GT(share_of(none), 0.4);
    const auto all = features_at({1000.0, 1100.0, 1300.0, 1450.0, 1600.0});
    for (const auto &features : {all, in_known_run(all)}) {
        EXPECT_LT(share_of(features), 0.2);
        EXPECT_GT(share_of(features), 0.8 / 9.0 - 0.001);
    }
}

TEST(Sample, FewerThanFiveFeaturesKeepTheShareOfUnlisted) {
    const auto sample = rank_sample(features_at({1022.0, 1127.0, 1325.0, 1478.0}), steady_library(),
                                    nearby_candidates(steady_library()), {});
    EXPECT_EQ(sample.unlisted_share, 0.2);
}

TEST(Sample, AUserShareOfUnlistedIsKept) {
    SamplePrior prior;
    prior.feature.unlisted = 0.4;
    prior.learn_unlisted = false;
    const auto sample = rank_sample(features_at({1022.0, 1127.0, 1325.0, 1478.0, 1623.0}),
                                    steady_library(), nearby_candidates(steady_library()), prior);
    EXPECT_EQ(sample.unlisted_share, 0.4);
}

TEST(Sample, UnlistedFeaturesRaiseTheDoubtAboutOthers) {
    const Knowledge knowledge = steady_library();
    const double doubtful = 1001.6;
    const auto among_listed = rank_sample(features_at({doubtful, 1100.0, 1300.0, 1450.0, 1600.0}),
                                          knowledge, nearby_candidates(knowledge), {});
    const auto among_unlisted = rank_sample(features_at({doubtful, 1127.0, 1325.0, 1478.0, 1623.0}),
                                            knowledge, nearby_candidates(knowledge), {});
    EXPECT_GT(among_unlisted.features[0].unlisted, 1.5 * among_listed.features[0].unlisted);
}

TEST(Sample, FeaturesShareTheShiftOfTheRun) {
    std::vector<double> indices = even_indices(20);
    indices.insert(indices.end(), {2200.0, 2204.0});
    const Knowledge knowledge{{shifting_system(indices, 3.0)}, {}};
    const auto &candidates = knowledge.systems[0].candidates;
    std::vector<SampleFeature> features;
    for (const std::size_t compound : {20U, 1U, 4U, 5U, 9U, 12U}) {
        features.push_back({{{0, candidates[compound].location + 4.0, 0.2}}, {}});
    }
    const auto nearby = nearby_candidates(knowledge);
    const auto alone = rank_sample(std::span(features).first(1), knowledge, nearby, {});
    EXPECT_EQ(alone.features[0].candidates[0].compound, 21U);
    const auto found = register_run(features, knowledge, nearby, {});
    EXPECT_NEAR(found.at(0).shift, 4.0, 0.5);
    EXPECT_EQ(rank_sample(features, knowledge, nearby, {}).features[0].candidates[0].compound, 20U);
}

TEST(Sample, StandardsOfTheRunHaveAHigherPrior) {
    const Knowledge knowledge = steady_library();
    StandardsInRun beside{{2, 1000.0, 0.2, 1.0, 0.1}, {30, 1500.0, 0.2, 1.0, 0.1}};
    const std::vector<Observation> observations{
        {0, 1000.4, 0.2, {}, std::make_shared<const StandardsInRun>(beside)}};
    const ListedCompounds listed = listed_on(observations, knowledge);
    EXPECT_EQ(listed.count(), 21U); // twenty of the library, and a standard that it does not hold
    const Prior prior = with_standards({}, observations, listed);
    const double standards = prior.weight_of(std::size_t{2}) + prior.weight_of(std::size_t{30});
    EXPECT_NEAR(standards / prior.weight_of(listed), kShareOfStandards, 1e-12);
    EXPECT_DOUBLE_EQ(prior.weight_of(std::size_t{5}), 1.0);
    // Without standards nothing changes.
    const std::vector<Observation> alone{{0, 1000.4, 0.2}};
    EXPECT_TRUE(with_standards({}, alone, listed_on(alone, knowledge)).factors.empty());
}

TEST(Sample, FurtherEvidenceMultipliesTheOdds) {
    const Knowledge knowledge = steady_library();
    auto features = features_at({1000.5});
    const Ranking before =
        rank_sample(features, knowledge, nearby_candidates(knowledge), {}).features[0];
    features[0].further.assign(20, 0.0);
    features[0].further[2] = std::log(5.0);
    const Ranking after =
        rank_sample(features, knowledge, nearby_candidates(knowledge), {}).features[0];
    EXPECT_NEAR((probability_of(after, 2) / after.unlisted) /
                    (probability_of(before, 2) / before.unlisted),
                5.0, 1e-6);
    features[0].further[2] = -1000.0; // excluded
    EXPECT_LT(
        probability_of(
            rank_sample(features, knowledge, nearby_candidates(knowledge), {}).features[0], 2),
        1e-12);
}

TEST(Sample, CompoundsHeldElsewhereShareThePriorAndLookLikeUnlistedOnes) {
    Knowledge knowledge = steady_library();
    const double place = knowledge.systems[0].candidates[2].location;
    const auto alone =
        rank_sample(features_at({place}), knowledge, nearby_candidates(knowledge), {});
    knowledge.systems[0].elsewhere = 230; // of 250 compounds of the library
    const auto among =
        rank_sample(features_at({place}), knowledge, nearby_candidates(knowledge), {});
    EXPECT_EQ(among.elsewhere.compounds, 230U);
    // Before measuring 0.8 x 230 / 250 of the probability is theirs, beside 0.2 of unlisted.
    EXPECT_NEAR(among.elsewhere.share, 0.736 / 0.936, 1e-9);
    EXPECT_NEAR(total(among.features[0]), 1.0, 1e-9);
    const auto odds = [](const SampleRanking &sample) {
        return probability_of(sample.features[0], 2) / sample.features[0].unlisted;
    };
    EXPECT_NEAR(odds(among) / odds(alone), (0.8 / 250 / 0.936) / (0.8 / 20 / 0.2), 1e-6);
}

} // namespace
} // namespace cospot::matcher
