#include "matcher/spread.h"

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
    const SpreadPrior prior = fit_spread(Quantity::RI, drawn(5000, 3, 4.0, 8.0));
    EXPECT_NEAR(prior.variance, 4.0, 0.4);
    EXPECT_NEAR(prior.freedom, 8.0, 1.5);
}

TEST(Spread, AlikeCompoundsGiveMuchFreedom) {
    const SpreadPrior prior = fit_spread(Quantity::RI, drawn(2000, 3, 4.0, 1e6));
    EXPECT_NEAR(prior.variance, 4.0, 0.2);
    EXPECT_GT(prior.freedom, 30.0);
}

TEST(Spread, WithoutReplicatesIsAssumedAndSaysSo) {
    const SpreadPrior prior = fit_spread(Quantity::RI, {});
    EXPECT_TRUE(prior.is_assumed());
    EXPECT_DOUBLE_EQ(std::sqrt(prior.variance), assumed_spread(Quantity::RI));
}

TEST(Spread, FewReplicatesPullTheAssumedSpread) {
    const SpreadPrior prior = fit_spread(Quantity::RI, {{25.0, 4.0}});
    EXPECT_FALSE(prior.is_assumed());
    EXPECT_DOUBLE_EQ(prior.variance, (4 * 9.0 + 4 * 25.0) / 8);
}

TEST(Spread, EqualReplicatesDoNotMakeItZero) {
    const SpreadPrior prior = fit_spread(Quantity::RI, std::vector<SampleVariance>(10, {0.0, 2.0}));
    EXPECT_GT(prior.variance, 0.01);
    EXPECT_TRUE(std::isfinite(prior.freedom));
}

TEST(Spread, PosteriorLiesBetweenPriorAndOwnVariance) {
    const SampleVariance posterior = posterior_variance({4.0, 6.0, 10.0}, {10.0, 2.0});
    EXPECT_DOUBLE_EQ(posterior.variance, (6 * 4.0 + 2 * 10.0) / 8);
    EXPECT_DOUBLE_EQ(posterior.freedom, 8.0);
}

} // namespace
} // namespace cospot::matcher
