#include "matcher/recalibration.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <span>
#include <vector>

namespace cospot::matcher {
namespace {

/// Rankings of five candidates and `unlisted` whose right probabilities are known; the truth is
/// drawn from them. Stated are those that a recalibration with this exponent makes right: the
/// candidates' shares to the power 1 / exponent, `unlisted` as it is.
std::vector<JudgedRanking> simulated(std::uint32_t seed, std::size_t count, double exponent) {
    std::mt19937 engine(seed);
    std::normal_distribution<double> normal;
    std::vector<JudgedRanking> judged;
    for (std::size_t i = 0; i < count; ++i) {
        std::vector<double> odds; // the last one: unlisted
        double right = 0.0;
        double stated = 0.0;
        for (int k = 0; k < 6; ++k) {
            odds.push_back(std::exp(1.5 * normal(engine)));
            right += k < 5 ? odds.back() : 0.0;
            stated += k < 5 ? std::pow(odds.back(), 1.0 / exponent) : 0.0;
        }
        std::discrete_distribution<std::size_t> draw(odds.begin(), odds.end());
        const std::size_t truth = draw(engine);
        JudgedRanking one;
        one.truth = truth == 5 ? kUnlisted : truth;
        one.ranking.unlisted = odds[5] / (right + odds[5]);
        for (std::size_t k = 0; k < 5; ++k) {
            one.ranking.candidates.push_back(
                {k, (1.0 - one.ranking.unlisted) * std::pow(odds[k], 1.0 / exponent) / stated});
        }
        sort_by_probability(one.ranking);
        judged.push_back(one);
    }
    return judged;
}

bool set_holds_truth(const JudgedRanking &judged, const Recalibration &recalibration) {
    const CandidateSet set = candidate_set(judged.ranking, recalibration);
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
    EXPECT_EQ(none.least_in_set, 0.0);
    const Ranking ranking{{{3, 0.5}, {1, 0.2}}, 0.3};
    const Ranking same = recalibrated(ranking, none);
    EXPECT_NEAR(same.candidates[0].probability, 0.5, 1e-12);
    EXPECT_NEAR(same.unlisted, 0.3, 1e-12);
}

TEST(Recalibration, RecoversOverconfidence) {
    const Recalibration found = fit_recalibration(simulated(1, 3000, 0.5));
    EXPECT_NEAR(found.exponent, 0.5, 0.04);
}

TEST(Recalibration, RecoversUnderconfidence) {
    const Recalibration found = fit_recalibration(simulated(2, 3000, 2.0));
    EXPECT_NEAR(found.exponent, 2.0, 0.15);
}

TEST(Recalibration, RightProbabilitiesStay) {
    const Recalibration found = fit_recalibration(simulated(4, 3000, 1.0));
    EXPECT_NEAR(found.exponent, 1.0, 0.07);
}

TEST(Recalibration, FewQuestionsAreHeldBack) {
    const double few = fit_recalibration(simulated(5, 10, 0.3)).exponent;
    const double many = fit_recalibration(simulated(5, 3000, 0.3)).exponent;
    EXPECT_NEAR(many, 0.3, 0.03);
    EXPECT_GT(few, many + 0.1);
    EXPECT_LT(few, 1.0);
}

TEST(Recalibration, RaisesOddsBetweenCandidatesToAPower) {
    // 0.64 and 0.16 become 0.8 and 0.4 over their sum, and share 0.8 as before.
    const Ranking ranking = recalibrated({{{3, 0.64}, {1, 0.16}}, 0.20}, {0.5, 0.0});
    EXPECT_NEAR(ranking.candidates[0].probability, 0.8 * 0.8 / 1.2, 1e-12);
    EXPECT_NEAR(ranking.candidates[1].probability, 0.8 * 0.4 / 1.2, 1e-12);
    EXPECT_NEAR(ranking.unlisted, 0.2, 1e-12);
}

TEST(Recalibration, KeepsTheOrderAndSumsToOne) {
    for (const JudgedRanking &one : simulated(6, 50, 1.0)) {
        for (const Recalibration &how : {Recalibration{0.3, 0.2}, {3.0, 0.2}}) {
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

TEST(Recalibration, SetsOfFreshRankingsHoldListedCompoundsAsOftenAsPromised) {
    const Recalibration found = fit_recalibration(simulated(7, 1500, 0.5));
    double asked = 0.0;
    double held = 0.0;
    for (JudgedRanking one : simulated(8, 6000, 0.5)) {
        if (one.truth != kUnlisted) {
            one.ranking = recalibrated(one.ranking, found);
            asked += 1.0;
            held += set_holds_truth(one, found) ? 1.0 : 0.0;
        }
    }
    // About 1200 of the fitted rankings are of listed compounds.
    const double error =
        std::sqrt(kSetCoverage * (1.0 - kSetCoverage) * (1.0 / 1200.0 + 1.0 / asked));
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
        held += set_holds_truth(one, found) ? 1 : 0;
    }
    EXPECT_GE(held, 190);
}

TEST(Recalibration, FewQuestionsGiveTheFullSet) {
    // 5 % of n + 1 rankings are less than one up to n = 18.
    std::vector<JudgedRanking> listed;
    for (const JudgedRanking &one : simulated(9, 100, 1.0)) {
        if (one.truth != kUnlisted) {
            listed.push_back(one);
        }
    }
    const auto limit_of = [&](std::size_t n) {
        return fit_recalibration(std::span(listed).first(n)).least_in_set;
    };
    EXPECT_LT(limit_of(18), 1e-9);
    EXPECT_GT(limit_of(19), 1e-6);
}

TEST(Recalibration, ProbabilityOfTheTruth) {
    const Ranking ranking{{{3, 0.5}, {1, 0.2}}, 0.3};
    EXPECT_EQ(probability_of_truth(ranking, 3), 0.5);
    EXPECT_EQ(probability_of_truth(ranking, 1), 0.2);
    EXPECT_EQ(probability_of_truth(ranking, kUnlisted), 0.3);
    EXPECT_EQ(probability_of_truth(ranking, 8), 0.0);
}

TEST(Recalibration, SetLeavesOutWhatIsBelowTheLimit) {
    const Ranking ranking{{{3, 0.5}, {1, 0.2}}, 0.3};
    const auto set_with = [&](double limit) { return candidate_set(ranking, {1.0, limit}); };
    EXPECT_EQ(set_with(0.1).candidates, 2U);
    EXPECT_TRUE(set_with(0.1).unlisted);
    EXPECT_EQ(set_with(0.25).candidates, 1U);
    EXPECT_TRUE(set_with(0.25).unlisted);
    EXPECT_EQ(set_with(0.4).candidates, 1U);
    EXPECT_FALSE(set_with(0.4).unlisted);
    // The most probable answer is always in it.
    EXPECT_EQ(set_with(0.9).candidates, 1U);
    // Without a limit the set gathers 95 %: all three.
    EXPECT_EQ(set_with(0.0).candidates, 2U);
}

} // namespace
} // namespace cospot::matcher
