#include "matcher/recalibration.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace cospot::matcher {
namespace {

/// Rankings of five candidates and `unlisted` whose right probabilities p are known; the truth is
/// drawn from them. Stated are those that a recalibration with these parameters makes right:
/// p^(1 / exponent), that of `unlisted` divided by its factor first.
std::vector<JudgedRanking> simulated(std::uint32_t seed, std::size_t count,
                                     const Recalibration &right) {
    std::mt19937 engine(seed);
    std::normal_distribution<double> normal;
    std::vector<JudgedRanking> judged;
    for (std::size_t i = 0; i < count; ++i) {
        std::vector<double> odds; // the last one: unlisted
        for (int k = 0; k < 6; ++k) {
            odds.push_back(std::exp(1.5 * normal(engine)));
        }
        std::discrete_distribution<std::size_t> draw(odds.begin(), odds.end());
        const std::size_t truth = draw(engine);
        JudgedRanking one;
        one.truth = truth == 5 ? kUnlisted : truth;
        one.ranking.unlisted = std::pow(odds[5] / right.unlisted_factor, 1.0 / right.exponent);
        double sum = one.ranking.unlisted;
        for (std::size_t k = 0; k < 5; ++k) {
            one.ranking.candidates.push_back({k, std::pow(odds[k], 1.0 / right.exponent)});
            sum += one.ranking.candidates.back().probability;
        }
        one.ranking.unlisted /= sum;
        for (RankedCandidate &candidate : one.ranking.candidates) {
            candidate.probability /= sum;
        }
        sort_by_probability(one.ranking);
        judged.push_back(one);
    }
    return judged;
}

/// Whether the set that a level cuts off holds the truth.
bool set_holds_truth(const JudgedRanking &judged, double level) {
    const CandidateSet set = candidate_set(judged.ranking, level);
    if (judged.truth == kUnlisted) {
        return set.unlisted;
    }
    for (std::size_t i = 0; i < set.candidates; ++i) {
        if (judged.ranking.candidates[i].compound == judged.truth) {
            return true;
        }
    }
    return false;
}

TEST(Recalibration, WithoutQuestionsChangesNothing) {
    const Recalibration none = fit_recalibration({});
    EXPECT_EQ(none.exponent, 1.0);
    EXPECT_EQ(none.unlisted_factor, 1.0);
    EXPECT_EQ(none.set_level, kSetCoverage);
    const Ranking ranking{{{3, 0.5}, {1, 0.2}}, 0.3};
    const Ranking same = recalibrated(ranking, none);
    EXPECT_NEAR(same.candidates[0].probability, 0.5, 1e-12);
    EXPECT_NEAR(same.unlisted, 0.3, 1e-12);
}

TEST(Recalibration, RecoversOverconfidence) {
    const Recalibration found = fit_recalibration(simulated(1, 3000, {0.5, 1.0, 0.95}));
    EXPECT_NEAR(found.exponent, 0.5, 0.04);
    EXPECT_NEAR(found.unlisted_factor, 1.0, 0.15);
}

TEST(Recalibration, RecoversUnderconfidence) {
    const Recalibration found = fit_recalibration(simulated(2, 3000, {2.0, 1.0, 0.95}));
    EXPECT_NEAR(found.exponent, 2.0, 0.15);
    EXPECT_NEAR(found.unlisted_factor, 1.0, 0.15);
}

TEST(Recalibration, RecoversWhatUnlistedIsWorth) {
    const Recalibration found = fit_recalibration(simulated(3, 3000, {0.7, 3.0, 0.95}));
    EXPECT_NEAR(found.exponent, 0.7, 0.05);
    EXPECT_NEAR(found.unlisted_factor, 3.0, 0.4);
}

TEST(Recalibration, RightProbabilitiesStay) {
    const Recalibration found = fit_recalibration(simulated(4, 3000, {}));
    EXPECT_NEAR(found.exponent, 1.0, 0.07);
    EXPECT_NEAR(found.unlisted_factor, 1.0, 0.15);
}

TEST(Recalibration, FewQuestionsAreHeldBack) {
    const double few = fit_recalibration(simulated(5, 10, {0.3, 1.0, 0.95})).exponent;
    const double many = fit_recalibration(simulated(5, 3000, {0.3, 1.0, 0.95})).exponent;
    EXPECT_NEAR(many, 0.3, 0.03);
    EXPECT_GT(few, many + 0.1);
    EXPECT_LT(few, 1.0);
}

TEST(Recalibration, RaisesOddsToAPowerAndThoseOfUnlistedByAFactor) {
    // 0.64, 0.16 and 0.2 become 0.8, 0.4 and 2 x 0.4472, over their sum.
    const Ranking ranking = recalibrated({{{3, 0.64}, {1, 0.16}}, 0.20}, {0.5, 2.0, 0.95});
    const double sum = 0.8 + 0.4 + 2.0 * std::sqrt(0.2);
    EXPECT_NEAR(ranking.candidates[0].probability, 0.8 / sum, 1e-12);
    EXPECT_NEAR(ranking.candidates[1].probability, 0.4 / sum, 1e-12);
    EXPECT_NEAR(ranking.unlisted, 2.0 * std::sqrt(0.2) / sum, 1e-12);
}

TEST(Recalibration, KeepsTheOrderAndSumsToOne) {
    for (const JudgedRanking &one : simulated(6, 50, {})) {
        for (const Recalibration &how : {Recalibration{0.3, 0.2, 0.9}, {3.0, 4.0, 0.9}}) {
            const Ranking ranking = recalibrated(one.ranking, how);
            double sum = ranking.unlisted;
            for (std::size_t i = 0; i < ranking.candidates.size(); ++i) {
                sum += ranking.candidates[i].probability;
                EXPECT_EQ(ranking.candidates[i].compound, one.ranking.candidates[i].compound);
                if (i > 0) {
                    EXPECT_LE(ranking.candidates[i].probability,
                              ranking.candidates[i - 1].probability);
                }
            }
            EXPECT_NEAR(sum, 1.0, 1e-12);
        }
    }
}

TEST(Recalibration, SetsOfFreshRankingsHoldTheTruthAsOftenAsPromised) {
    constexpr double fitted = 1000.0;
    constexpr double asked = 5000.0;
    const Recalibration found =
        fit_recalibration(simulated(7, static_cast<std::size_t>(fitted), {0.5, 1.0, 0.95}));
    double held = 0.0;
    for (JudgedRanking one : simulated(8, static_cast<std::size_t>(asked), {0.5, 1.0, 0.95})) {
        one.ranking = recalibrated(one.ranking, found);
        held += set_holds_truth(one, found.set_level) ? 1.0 : 0.0;
    }
    const double error =
        std::sqrt(kSetCoverage * (1.0 - kSetCoverage) * (1.0 / fitted + 1.0 / asked));
    EXPECT_NEAR(held / asked, kSetCoverage, 3.0 * error);
}

TEST(Recalibration, SetsHoldTheTruthWhereCandidatesAreEquallyLikely) {
    // Ten compounds of which the library holds the same value: any of them is the truth.
    std::vector<JudgedRanking> judged;
    for (std::size_t i = 0; i < 200; ++i) {
        JudgedRanking one;
        one.ranking.unlisted = 0.05;
        for (std::size_t k = 0; k < 10; ++k) {
            one.ranking.candidates.push_back({k, 0.095});
        }
        one.truth = i % 10;
        judged.push_back(one);
    }
    const Recalibration found = fit_recalibration(judged);
    int held = 0;
    for (JudgedRanking one : judged) {
        one.ranking = recalibrated(one.ranking, found);
        held += set_holds_truth(one, found.set_level) ? 1 : 0;
    }
    EXPECT_GE(held, 190);
}

TEST(Recalibration, FewQuestionsGiveTheFullSet) {
    // 95 % of n + 1 rankings are more than n up to n = 18.
    EXPECT_EQ(fit_recalibration(simulated(9, 18, {})).set_level, 1.0);
    EXPECT_LT(fit_recalibration(simulated(9, 19, {})).set_level, 1.0);
}

TEST(Recalibration, ProbabilityOfTheTruth) {
    const Ranking ranking{{{3, 0.5}, {1, 0.2}}, 0.3};
    EXPECT_EQ(probability_of_truth(ranking, 3), 0.5);
    EXPECT_EQ(probability_of_truth(ranking, 1), 0.2);
    EXPECT_EQ(probability_of_truth(ranking, kUnlisted), 0.3);
    EXPECT_EQ(probability_of_truth(ranking, 8), 0.0);
}

TEST(Recalibration, LevelIsWhatTheSetGathersBeforeTheTruth) {
    const Ranking ranking{{{3, 0.5}, {1, 0.2}}, 0.3};
    EXPECT_NEAR(level_before_truth(ranking, 3), 0.0, 1e-12);
    EXPECT_NEAR(level_before_truth(ranking, kUnlisted), 0.5, 1e-12);
    EXPECT_NEAR(level_before_truth(ranking, 1), 0.8, 1e-12);
    EXPECT_NEAR(level_before_truth(ranking, 8), 1.0, 1e-12);
    // Of equals the set takes `unlisted` first, and candidates in their order.
    const Ranking equal{{{3, 0.25}, {1, 0.25}, {2, 0.25}}, 0.25};
    EXPECT_NEAR(level_before_truth(equal, kUnlisted), 0.0, 1e-12);
    EXPECT_NEAR(level_before_truth(equal, 3), 0.25, 1e-12);
    EXPECT_NEAR(level_before_truth(equal, 2), 0.75, 1e-12);
}

} // namespace
} // namespace cospot::matcher
