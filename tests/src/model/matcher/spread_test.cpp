#include "model/matcher/spread.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace cospot::matcher {
namespace {

/// Variances of `count` compounds with `freedom` degrees of freedom each; the true variance of a
/// compound is drawn from a scaled inverse chi-squared distribution.
std::vector<SampleVariance> drawn(std::size_t count, double freedom, double variance,
                                  double prior_freedom) {
    std::mt19937 engine(42);
    std::gamma_distribution<double> truth(prior_freedom / 2, 2 / prior_freedom);
    std::gamma_distribution<double> sample(freedom / 2, 2 / freedom);
    std::vector<SampleVariance> samples;
    for (std::size_t i = 0; i < count; ++i) {
        samples.push_back({variance / truth(engine) * sample(engine), freedom});
    }
    return samples;
}

TEST(Spread, RecoversThePriorThatTheVariancesWereDrawnFrom) {
    const SpreadPrior prior = fit_spread(3.0, drawn(5000, 3, 4.0, 8.0));
    EXPECT_NEAR(prior.variance, 4.0, 0.4);
    EXPECT_NEAR(prior.freedom, 8.0, 1.5);
}

TEST(Spread, AlikeCompoundsGiveMuchFreedom) {
    const SpreadPrior prior = fit_spread(3.0, drawn(2000, 3, 4.0, 1e6));
    EXPECT_NEAR(prior.variance, 4.0, 0.2);
    EXPECT_GT(prior.freedom, 30.0);
}

TEST(Spread, WithoutReplicatesIsAssumedAndSaysSo) {
    const SpreadPrior prior = fit_spread(3.0, {});
    EXPECT_TRUE(prior.is_assumed());
    EXPECT_DOUBLE_EQ(std::sqrt(prior.variance), 3.0);
}

TEST(Spread, FewReplicatesPullTheAssumedSpread) {
    const SpreadPrior prior = fit_spread(3.0, {{25.0, 4.0}});
    EXPECT_FALSE(prior.is_assumed());
    EXPECT_NEAR(prior.variance, (4 * 9.0 + 4 * 25.0) / 8, 0.5); // less a chance of a blunder
}

TEST(Spread, EqualReplicatesDoNotMakeItZero) {
    const SpreadPrior prior = fit_spread(3.0, std::vector<SampleVariance>(10, {0.0, 2.0}));
    EXPECT_GT(prior.variance, 0.01);
    EXPECT_TRUE(std::isfinite(prior.freedom));
}

TEST(Spread, PosteriorLiesBetweenPriorAndOwnVariance) {
    const SampleVariance posterior = posterior_variance({4.0, 6.0, 10.0}, {10.0, 2.0});
    EXPECT_DOUBLE_EQ(posterior.variance, (6 * 4.0 + 2 * 10.0) / 8);
    EXPECT_DOUBLE_EQ(posterior.freedom, 8.0);
}

TEST(Spread, OneMislabelledReplicateDoesNotWidenTheOthers) {
    // R_F on the model scale: one compound read at 0.76 and 0.11, the others within 0.02.
    const double blunder =
        0.5 * std::pow(std::asin(std::sqrt(0.76)) - std::asin(std::sqrt(0.11)), 2);
    for (const std::size_t others : {0U, 1U, 3U, 4U, 12U, 40U}) {
        std::vector<SampleVariance> samples;
        for (std::size_t i = 0; i < others; ++i) {
            samples.push_back({std::pow(0.01 + 0.005 * static_cast<double>(i % 5), 2), 1.0});
        }
        const double without = fit_spread(0.03, samples).variance;
        samples.push_back({blunder, 1.0});
        const SpreadPrior prior = fit_spread(0.03, samples);
        EXPECT_LT(std::sqrt(prior.variance), 1.35 * std::sqrt(without)) << others;
        EXPECT_GT(std::sqrt(prior.variance), 0.9 * std::sqrt(without)) << others;
        EXPECT_GT(blunder_probability(prior, samples.back()), 0.8) << others;
    }
}

TEST(Spread, ManyWideReplicatesAreNoBlunders) {
    // A system that scatters five times as much as was assumed.
    for (const std::size_t count : {3U, 4U, 8U, 60U}) {
        std::vector<SampleVariance> samples = drawn(count, 2, 225.0, 20.0);
        const SpreadPrior prior = fit_spread(3.0, samples);
        EXPECT_GT(std::sqrt(prior.variance), 7.0) << count;
        for (const SampleVariance &sample : samples) {
            EXPECT_LT(blunder_probability(prior, sample), 0.5) << count;
        }
    }
}

TEST(AssumedSpread, DependsOnTheTechniqueAndTheLengthOfTheRun) {
    // log10: 1 % in an oven, 5 % in an eluent that is mixed anew, 10 % on a layer or a packed
    // column.
    EXPECT_NEAR(std::pow(10.0, assumed_spread(Technique::gc, Quantity::k)), 1.01, 1e-3);
    EXPECT_NEAR(std::pow(10.0, assumed_spread(Technique::hplc, Quantity::k)), 1.05, 1e-3);
    EXPECT_NEAR(std::pow(10.0, assumed_spread(Technique::column, Quantity::k)), 1.10, 1e-2);
    EXPECT_DOUBLE_EQ(assumed_spread(Technique::gc, Quantity::tR, 60.0), 0.3);
    EXPECT_DOUBLE_EQ(assumed_spread(Technique::gc, Quantity::tR, 3.0), 0.015);
    EXPECT_DOUBLE_EQ(assumed_spread(Technique::gc, Quantity::tR, 0.5), 0.01);
    EXPECT_DOUBLE_EQ(assumed_spread(Technique::gc, Quantity::tR), 0.05);
}

} // namespace
} // namespace cospot::matcher
