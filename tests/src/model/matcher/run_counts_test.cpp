#include "model/matcher/run_counts.h"

#include "model/matcher/nearby.h"
#include "model/matcher/run_effects.h"
#include "model/matcher/sample.h"
#include "model/matcher/system_model.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <random>
#include <vector>

namespace cospot::matcher {
namespace {

constexpr std::size_t kRuns = 40;

/// Indices 1000, 1010, ... of invented compounds, each in a share of the runs.
std::vector<KnownValue> seen_in(const std::vector<double> &shares, std::uint32_t seed = 3,
                                std::size_t runs = kRuns) {
    std::mt19937 engine(seed);
    std::normal_distribution<double> normal;
    std::uniform_real_distribution<double> even;
    std::vector<KnownValue> values;
    for (std::size_t c = 0; c < shares.size(); ++c) {
        for (std::size_t run = 0; run < runs; ++run) {
            if (run == 0 || even(engine) < shares[c]) {
                values.push_back({c, static_cast<std::int64_t>(run), true,
                                  1000.0 + 10.0 * static_cast<double>(c) + normal(engine)});
            }
        }
    }
    return values;
}

/// Thirty compounds of which every third is common.
std::vector<double> some_common() {
    std::vector<double> shares;
    for (int c = 0; c < 30; ++c) {
        shares.push_back(c % 3 == 0 ? 0.9 : 0.05);
    }
    return shares;
}

TEST(RunCounts, FrequentCompoundsAreLikelierLessThanInProportion) {
    const SystemModel model = fit_system(Technique::gc, Quantity::RI, seen_in(some_common()));
    ASSERT_TRUE(model.run_counts.do_tell());
    const double ratio = weight_of_runs(model.run_counts, 36) / weight_of_runs(model.run_counts, 4);
    EXPECT_GT(ratio, 1.5);
    EXPECT_LT(ratio, 3.0); // the root of 36 to 4
}

TEST(RunCounts, WeightsAreOneOnAverage) {
    const SystemModel model = fit_system(Technique::gc, Quantity::RI, seen_in(some_common()));
    double sum = 0.0;
    for (const CandidateDensity &candidate : model.candidates) {
        sum += weight_of_runs(model.run_counts, candidate.runs);
    }
    EXPECT_NEAR(sum, static_cast<double>(model.candidates.size()), 1e-9);
}

TEST(RunCounts, CompoundsInEveryRunHaveEqualWeights) {
    const auto counts =
        fit_system(Technique::gc, Quantity::RI, seen_in(std::vector(30, 1.0))).run_counts;
    EXPECT_FALSE(counts.do_tell());
    EXPECT_EQ(weight_of_runs(counts, 3), 1.0);
}

TEST(RunCounts, FrequenciesWithinChanceGiveNoWeights) {
    // All compounds are in one run of five; some came up twice as often as others by chance.
    EXPECT_FALSE(fit_system(Technique::gc, Quantity::RI, seen_in(std::vector(30, 0.2)))
                     .run_counts.do_tell());
}

TEST(RunCounts, FewOrUnnamedRunsGiveNoWeights) {
    EXPECT_FALSE(
        fit_system(Technique::gc, Quantity::RI, seen_in(some_common(), 3, 9)).run_counts.do_tell());
    std::vector<KnownValue> values = seen_in(some_common());
    values.back().run_is_named = false;
    EXPECT_FALSE(fit_system(Technique::gc, Quantity::RI, values).run_counts.do_tell());
}

class CommonCompounds : public testing::Test {
protected:
    /// Of a peak halfway between compound 0, which is common, and compound 1, which is rare.
    [[nodiscard]] Ranking ranked(const Prior &prior) const {
        const std::vector<SampleFeature> features{{{{0, 1005.0, 0.0, {}, {}, {}}}, {}}};
        return rank_sample(features, knowledge_, nearby_candidates(knowledge_), {prior, true})
            .features.front();
    }

    [[nodiscard]] static double odds(const Ranking &ranking) {
        double common = 0.0;
        double rare = 0.0;
        for (const RankedCandidate &candidate : ranking.candidates) {
            common += candidate.compound == 0 ? candidate.probability : 0.0;
            rare += candidate.compound == 1 ? candidate.probability : 0.0;
        }
        return common / rare;
    }

    static Knowledge knowledge_of(bool with_counts) {
        SystemModel model = fit_system(Technique::gc, Quantity::RI, seen_in(some_common()));
        model.candidates[1].scale = model.candidates[0].scale;
        model.candidates[1].freedom = model.candidates[0].freedom;
        model.candidates[1].log_constant = model.candidates[0].log_constant;
        if (!with_counts) {
            model.run_counts = {};
        }
        return {{model}, {}};
    }

    Knowledge knowledge_ = knowledge_of(true);
};

TEST_F(CommonCompounds, PriorOddsFollowTheRunWeights) {
    const double with = odds(ranked({}));
    const Knowledge counted = knowledge_;
    knowledge_ = knowledge_of(false);
    const double without = odds(ranked({}));
    const std::vector<Observation> at{{0, 1005.0, 0.0, {}, {}, {}}};
    EXPECT_NEAR(with / without, run_weight(0, at, counted) / run_weight(1, at, counted), 1e-6);
    EXPECT_GT(with / without, 1.5);
}

TEST_F(CommonCompounds, RunWeightsKeepThePriorOfUnlisted) {
    const std::vector<Observation> at{{0, 1005.0, 0.0, {}, {}, {}}};
    const Prior prior = with_run_counts({}, at, knowledge_);
    EXPECT_NEAR(prior.weight_of(listed_on(at, knowledge_)), 30.0, 1e-9);
}

TEST_F(CommonCompounds, CompoundsOutOfReachKeepTheirShare) {
    const std::vector<Observation> at{{0, 1005.0, 0.0, {}, {}, {}}};
    SystemModel &model = knowledge_.systems.front();
    model.candidates.resize(10);
    model.by_location = ordered_by_location(model);
    model.out_of_reach = 20;
    const Prior prior = with_run_counts({}, at, knowledge_);
    EXPECT_NEAR(prior.weight_of(listed_on(at, knowledge_)), 30.0, 1e-9);
    EXPECT_GT(prior.out_of_reach, 0.0);
}

TEST_F(CommonCompounds, AUserPriorReplacesTheRunWeights) {
    Prior own;
    own.weights.assign(30, 1.0);
    const double given = odds(ranked(own));
    knowledge_ = knowledge_of(false);
    EXPECT_NEAR(given, odds(ranked({})), 1e-9);
}

} // namespace
} // namespace cospot::matcher
