// What is followed over several samples, and by which ratio.
#include "purity/trend.h"

#include "purity/amounts.h"

#include <gtest/gtest.h>

namespace cospot::purity {
namespace {

/// A run with the declared compound at `main_min` and one unknown.
JudgedSample run(double main_min, double unknown_min, std::optional<double> hold_up_min) {
    JudgedSample sample;
    sample.declared = "declared";
    for (const double time : {main_min, unknown_min}) {
        JudgedFeature one;
        one.feature.retention_time_min = time;
        one.per_cent = time == main_min ? 99.0 : 1.0;
        sample.features.push_back(one);
    }
    sample.main = 0;
    sample.features[0].role = Role::declared;
    set_relative_retention(sample, hold_up_min);
    return sample;
}

/// A plate with the declared compound at R_F 0.4 and an unknown.
JudgedSample plate(double unknown_rf) {
    JudgedSample sample = run(1.0, 2.0, std::nullopt);
    const double values[] = {0.4, unknown_rf};
    for (std::size_t i = 0; i < 2; ++i) {
        sample.features[i].feature.retention_time_min.reset();
        FeatureObservation seen;
        seen.value = values[i];
        sample.features[i].feature.observations.push_back(seen);
    }
    set_relative_retention(sample, std::nullopt);
    return sample;
}

TEST(Trend, FollowsUnknownsByOneRatioInAllSamples) {
    struct Case {
        std::vector<JudgedSample> samples;
        Ratio ratio;
        std::string name;
    };
    // The unknown at r = 1.50 has RRT = 1.40 where the hold-up time is a fifth of the main time.
    const std::vector<Case> cases{
        {{run(5, 7, 1.0), run(10, 14, 2.0)}, Ratio::adjusted, "unknown at r 1.50"},
        {{run(5, 7, 1.0), run(10, 14, std::nullopt)}, Ratio::unadjusted, "unknown at RRT 1.40"},
        {{run(10, 14, std::nullopt), run(5, 7, 1.0)}, Ratio::unadjusted, "unknown at RRT 1.40"},
        {{run(5, 7, 5.0), run(10, 14, 2.0)}, Ratio::unadjusted, "unknown at RRT 1.40"},
        {{plate(0.6), plate(0.6)}, Ratio::retardation, "unknown at R_rel 1.50"}};
    for (const Case &one : cases) {
        const Trend trend = trend_of(one.samples);
        EXPECT_EQ(trend.ratio, one.ratio) << one.name;
        ASSERT_EQ(trend.rows.size(), 2U) << one.name; // the unknown is one row, not two
        EXPECT_EQ(trend.rows[1].name, one.name);
        EXPECT_EQ(trend.rows[1].per_cent, (std::vector<std::optional<double>>{1.0, 1.0}));
    }
}

TEST(Trend, NeverComparesAdjustedWithUnadjustedRatios) {
    // r of the first and RRT of the second are both 1.50, of different compounds.
    const std::vector<JudgedSample> samples{run(5, 7, 1.0), run(10, 15, std::nullopt)};
    const Trend trend = trend_of(samples);
    ASSERT_EQ(trend.rows.size(), 3U);
    EXPECT_EQ(trend.rows[1].name, "unknown at RRT 1.40");
    EXPECT_EQ(trend.rows[2].name, "unknown at RRT 1.50");
}

TEST(Trend, ASampleWithoutTheDeclaredCompoundDoesNotChangeTheRatio) {
    JudgedSample lost = run(5, 7, 1.0);
    lost.main.reset();
    lost.ratio = Ratio::none;
    const std::vector<JudgedSample> samples{lost, run(5, 7, 1.0)};
    EXPECT_EQ(trend_of(samples).ratio, Ratio::adjusted);
}

/// As many samples as one likes: what nothing in another sample could be the same as is no row.
TEST(Trend, CountsWhatHasNothingToFollowItBy) {
    JudgedSample lost = run(5, 7, std::nullopt);
    lost.main.reset();
    lost.ratio = Ratio::none;
    for (JudgedFeature &feature : lost.features) {
        feature.role = Role::impurity;
        feature.relative_retention.reset();
        feature.unadjusted_ratio.reset();
    }
    const std::vector<JudgedSample> samples{run(5, 7, std::nullopt), lost, lost};
    const Trend trend = trend_of(samples);
    EXPECT_EQ(trend.rows.size(), 2U);
    EXPECT_EQ(trend.not_followed, 4U);
}

TEST(Trend, HoldsEachRowAgainstTheLimitThatItsFeatureIsJudgedBy) {
    const std::vector<JudgedSample> samples{run(5, 7, 1.0)};
    Limits limits;
    EXPECT_FALSE(trend_of(samples, limits).rows[0].limit);
    limits.rules.any_other = Decimal{0.95, 2};
    limits.rules.declared_at_least = Decimal{99.0, 1};
    const Trend trend = trend_of(samples, limits);
    EXPECT_EQ(trend.rows[0].limit->words, "at least 99.0 %");
    EXPECT_FALSE(breaks(98.95, *trend.rows[0].limit)); // rounded as the limit is written
    EXPECT_TRUE(breaks(98.94, *trend.rows[0].limit));
    EXPECT_EQ(trend.rows[1].limit->words, "limit 0.95 %");
    EXPECT_FALSE(breaks(0.954, *trend.rows[1].limit));
    EXPECT_TRUE(breaks(0.956, *trend.rows[1].limit));
}

TEST(Trend, WithoutALimitTheIdentificationThresholdIsShown) {
    const std::vector<JudgedSample> samples{run(5, 7, 1.0)};
    Limits limits;
    limits.rules.identification = {{std::nullopt, true, {0.10, 2}, std::nullopt}};
    EXPECT_EQ(trend_of(samples, limits).rows[1].limit->words, "identification threshold 0.10 %");
    // Where the daily intake is the lower limit, no per cent can be drawn.
    limits.rules.identification[0].intake = Intake{{1.0, 1}, "mg", 1.0};
    limits.dose_mg = 2000.0;
    EXPECT_FALSE(trend_of(samples, limits).rows[1].limit);
}

} // namespace
} // namespace cospot::purity
