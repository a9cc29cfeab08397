#include "model/matcher/recalibration.h"

#include <gtest/gtest.h>

#include <algorithm>
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

/// The same of candidates whose expected values were transferred.
std::vector<JudgedRanking> transferred(std::vector<JudgedRanking> judged) {
    for (JudgedRanking &one : judged) {
        one.basis = Basis::transferred;
        for (RankedCandidate &candidate : one.ranking.candidates) {
            candidate.basis = Basis::transferred;
        }
    }
    return judged;
}

bool set_holds_truth(const JudgedRanking &judged, const Recalibration &recalibration) {
    const ChosenSet set = chosen_set(judged.ranking, recalibration);
    if (judged.truth == kUnlisted) {
        return set.unlisted;
    }
    return std::any_of(set.candidates.begin(), set.candidates.end(), [&](std::size_t position) {
        return judged.ranking.candidates[position].compound == judged.truth;
    });
}

Recalibration fitted(const std::vector<JudgedRanking> &judged) {
    return with_set_limits(fit_odds(judged), judged);
}

/// Share of the fresh rankings of listed compounds whose sets hold the truth.
double coverage(std::vector<JudgedRanking> fresh, const Recalibration &found) {
    double asked = 0.0;
    double held = 0.0;
    for (JudgedRanking &one : fresh) {
        if (one.truth != kUnlisted) {
            one.ranking = recalibrated(one.ranking, found);
            asked += 1.0;
            held += set_holds_truth(one, found) ? 1.0 : 0.0;
        }
    }
    return held / asked;
}

TEST(Recalibration, WithoutQuestionsChangesNothing) {
    const Recalibration none = fitted({});
    EXPECT_EQ(none.measured.exponent, 1.0);
    EXPECT_EQ(none.measured.least_in_set, 0.0);
    EXPECT_EQ(none.unlisted_offset, 0.0);
    const Ranking ranking{{{3, 0.5}, {1, 0.2}}, 0.3};
    const Ranking same = recalibrated(ranking, none);
    EXPECT_NEAR(same.candidates[0].probability, 0.5, 1e-12);
    EXPECT_NEAR(same.unlisted, 0.3, 1e-12);
}

TEST(Recalibration, RecoversOverconfidence) {
    EXPECT_NEAR(fit_odds(simulated(1, 3000, 0.5)).measured.exponent, 0.5, 0.04);
}

TEST(Recalibration, RecoversUnderconfidence) {
    EXPECT_NEAR(fit_odds(simulated(2, 3000, 2.0)).measured.exponent, 2.0, 0.15);
}

TEST(Recalibration, RightProbabilitiesStay) {
    const Recalibration found = fit_odds(simulated(4, 3000, 1.0), 1.0 / 6.0);
    EXPECT_NEAR(found.measured.exponent, 1.0, 0.07);
    EXPECT_NEAR(found.unlisted_offset, 0.0, 0.15);
}

TEST(Recalibration, FewQuestionsAreHeldBack) {
    const double few = fit_odds(simulated(5, 30, 0.3)).measured.exponent;
    const double many = fit_odds(simulated(5, 3000, 0.3)).measured.exponent;
    EXPECT_NEAR(many, 0.3, 0.03);
    EXPECT_GT(few, many + 0.1);
    EXPECT_LT(few, 1.0);
}

TEST(Recalibration, OfAFewQuestionsNothingIsLearned) {
    const Recalibration found = fit_odds(simulated(5, 15, 0.3));
    EXPECT_EQ(found.measured.exponent, 1.0);
    EXPECT_EQ(found.unlisted_offset, 0.0);
}

TEST(Recalibration, MeasuredAndTransferredAreCorrectedApart) {
    // Measured values are as sure as they say, transferred ones twice as sure as they should be.
    std::vector<JudgedRanking> judged = simulated(11, 2000, 1.0);
    const auto too_sure = transferred(simulated(12, 2000, 0.5));
    judged.insert(judged.end(), too_sure.begin(), too_sure.end());
    const Recalibration found = fit_odds(judged);
    EXPECT_NEAR(found.measured.exponent, 1.0, 0.08);
    EXPECT_NEAR(found.transferred.exponent, 0.5, 0.05);

    Ranking mixed{{{1, 0.4}, {2, 0.2}, {3, 0.1}, {4, 0.1}}, 0.2};
    mixed.candidates[1].basis = Basis::transferred;
    mixed.candidates[3].basis = Basis::transferred;
    Recalibration only;
    only.transferred.exponent = 0.5;
    const Ranking corrected = recalibrated(mixed, only);
    EXPECT_NEAR(probability_of_truth(corrected, 1), 0.4, 1e-12);
    EXPECT_NEAR(probability_of_truth(corrected, 3), 0.1, 1e-12);
    // 0.2 and 0.1 become their roots, and have 0.3 together as before.
    const double roots = std::sqrt(0.2) + std::sqrt(0.1);
    EXPECT_NEAR(probability_of_truth(corrected, 2), 0.3 * std::sqrt(0.2) / roots, 1e-12);
    EXPECT_NEAR(corrected.unlisted, 0.2, 1e-12);
}

TEST(Recalibration, OffsetOfUnlistedIsRecoveredFromTheEvidence) {
    // Unlisted compounds lie where they are expected three times as often as stated.
    const double factor = 3.0;
    std::vector<JudgedRanking> judged = simulated(13, 4000, 1.0);
    for (JudgedRanking &one : judged) {
        Recalibration understated;
        understated.unlisted_offset = -std::log(factor);
        one.ranking = recalibrated(one.ranking, understated);
    }
    const double share =
        static_cast<double>(std::count_if(judged.begin(), judged.end(),
                                          [](const auto &one) { return one.truth == kUnlisted; })) /
        static_cast<double>(judged.size());
    EXPECT_NEAR(fit_odds(judged, share).unlisted_offset, std::log(factor), 0.1);
    // How many absent compounds are asked for is not learned: without most of them it is the same.
    std::vector<JudgedRanking> fewer;
    std::size_t absent = 0;
    for (const JudgedRanking &one : judged) {
        if (one.truth != kUnlisted || ++absent % 4 == 0) {
            fewer.push_back(one);
        }
    }
    EXPECT_NEAR(fit_odds(fewer, share).unlisted_offset, std::log(factor), 0.2);
}

TEST(Recalibration, TheOffsetOfUnlistedHoldsForAnyPrior) {
    Recalibration found;
    found.unlisted_offset = std::log(2.0);
    for (const double unlisted : {0.01, 0.2, 0.9}) {
        const Ranking ranking = recalibrated({{{3, 1.0 - unlisted}}, unlisted}, found);
        EXPECT_NEAR(ranking.unlisted / (1.0 - ranking.unlisted), 2.0 * unlisted / (1.0 - unlisted),
                    1e-9);
        EXPECT_NEAR(ranking.candidates[0].probability, 1.0 - ranking.unlisted, 1e-12);
    }
    EXPECT_EQ(recalibrated({{}, 1.0}, found).unlisted, 1.0);
}

TEST(Recalibration, RaisesOddsBetweenCandidatesToAPower) {
    // 0.64 and 0.16 become 0.8 and 0.4 over their sum, and share 0.8 as before.
    Recalibration root;
    root.measured.exponent = 0.5;
    const Ranking ranking = recalibrated({{{3, 0.64}, {1, 0.16}}, 0.20}, root);
    EXPECT_NEAR(ranking.candidates[0].probability, 0.8 * 0.8 / 1.2, 1e-12);
    EXPECT_NEAR(ranking.candidates[1].probability, 0.8 * 0.4 / 1.2, 1e-12);
    EXPECT_NEAR(ranking.unlisted, 0.2, 1e-12);
}

TEST(Recalibration, PredictedValuesAndSameRunStandardsStayUnchanged) {
    Ranking ranking{{{3, 0.5}, {1, 0.2}}, 0.3};
    ranking.candidates[0].basis = Basis::same_run;
    ranking.candidates[1].basis = Basis::predicted;
    const Ranking same = recalibrated(ranking, {{0.5, 0.1}, {0.5, 0.1}, 0.0, 0.1});
    EXPECT_NEAR(same.candidates[0].probability, 0.5, 1e-12);
    EXPECT_NEAR(same.candidates[1].probability, 0.2, 1e-12);
}

TEST(Recalibration, KeepsTheOrderAndSumsToOne) {
    for (const JudgedRanking &one : simulated(6, 50, 1.0)) {
        for (const double exponent : {0.3, 3.0}) {
            Recalibration how;
            how.measured.exponent = exponent;
            how.unlisted_offset = 0.7;
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

/// Three standard errors of a share of 0.95 over about so many fitted and asked rankings.
double allowed(double fitted_rankings, double asked) {
    return 3.0 *
           std::sqrt(kSetCoverage * (1.0 - kSetCoverage) * (1.0 / fitted_rankings + 1.0 / asked));
}

TEST(Recalibration, SetsOfFreshRankingsHoldListedCompoundsAsOftenAsPromised) {
    const Recalibration found = fitted(simulated(7, 1500, 0.5));
    // About 1200 of the fitted rankings are of listed compounds.
    EXPECT_NEAR(coverage(simulated(8, 6000, 0.5), found), kSetCoverage, allowed(1200.0, 4800.0));
}

TEST(Recalibration, SetsHoldTransferredCompoundsAsOftenAsMeasuredOnes) {
    // With one limit for both, the many measured ones would set it.
    std::vector<JudgedRanking> judged = simulated(14, 4000, 3.0);
    const auto few = transferred(simulated(15, 800, 0.4));
    judged.insert(judged.end(), few.begin(), few.end());
    Recalibration found = with_set_limits({}, judged); // not even the odds are corrected
    EXPECT_NEAR(coverage(transferred(simulated(16, 4000, 0.4)), found), kSetCoverage,
                allowed(640.0, 3200.0));
    found.transferred.least_in_set = found.measured.least_in_set;
    EXPECT_LT(coverage(transferred(simulated(16, 4000, 0.4)), found), 0.93);
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
    const Recalibration found = fitted(judged);
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
        return with_set_limits({}, std::span(listed).first(n)).measured.least_in_set;
    };
    EXPECT_LT(limit_of(18), 1e-9);
    EXPECT_GT(limit_of(19), 1e-6);
}

TEST(Recalibration, TrueCompoundOutsideTheCandidatesHasProbabilityZero) {
    const Ranking ranking{{{3, 0.5}, {1, 0.2}}, 0.3};
    EXPECT_EQ(probability_of_truth(ranking, 3), 0.5);
    EXPECT_EQ(probability_of_truth(ranking, 1), 0.2);
    EXPECT_EQ(probability_of_truth(ranking, kUnlisted), 0.3);
    EXPECT_EQ(probability_of_truth(ranking, 8), 0.0);
}

TEST(Recalibration, SetLeavesOutWhatIsBelowTheLimit) {
    const Ranking ranking{{{3, 0.5}, {1, 0.2}}, 0.3};
    const auto set_with = [&](double limit) {
        return chosen_set(ranking, {{1.0, limit}, {}, 0.0, limit});
    };
    EXPECT_EQ(set_with(0.1).candidates.size(), 2U);
    EXPECT_TRUE(set_with(0.1).unlisted);
    EXPECT_EQ(set_with(0.25).candidates.size(), 1U);
    EXPECT_TRUE(set_with(0.25).unlisted);
    EXPECT_EQ(set_with(0.4).candidates.size(), 1U);
    EXPECT_FALSE(set_with(0.4).unlisted);
    // The most probable answer is always in it.
    EXPECT_EQ(set_with(0.9).candidates.size(), 1U);
    // Without a limit the set gathers 95 %: all three.
    EXPECT_EQ(set_with(0.0).candidates.size(), 2U);
}

TEST(Recalibration, EachBasisHasItsLimitOfTheSet) {
    Ranking ranking{{{3, 0.4}, {1, 0.2}, {2, 0.1}, {4, 0.08}}, 0.22};
    ranking.candidates[1].basis = Basis::transferred;
    ranking.candidates[3].basis = Basis::transferred;
    const ChosenSet set = chosen_set(ranking, {{1.0, 0.15}, {1.0, 0.05}, 0.0, 0.3});
    EXPECT_EQ(set.candidates, (std::vector<std::size_t>{0, 1, 3}));
    EXPECT_FALSE(set.unlisted);
}

} // namespace
} // namespace cospot::matcher
