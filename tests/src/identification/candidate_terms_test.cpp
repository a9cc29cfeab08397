// The terms that made a candidate likely or not, on invented systems.
#include "identification/candidate_terms.h"
#include "model/matcher/recalibration.h"

#include "model/matcher/retention_scale.h"

#include <gtest/gtest.h>

#include <cmath>
#include <memory>

namespace cospot {
namespace {

using matcher::Observation;

constexpr std::size_t kCompounds = 8;

/// Compounds 0..7 at R_F 0.1, 0.2, ... 0.8 in each of three runs.
matcher::SystemModel ladder_of_spots() {
    std::vector<matcher::KnownValue> known;
    for (std::size_t compound = 0; compound < kCompounds; ++compound) {
        for (int run = 0; run < 3; ++run) {
            known.push_back({compound, run, true,
                             0.1 * (static_cast<double>(compound) + 1) + 0.01 * (run - 1)});
        }
    }
    return matcher::fit_system(Technique::tlc, Quantity::Rf, known);
}

/// A sample with what the matcher says of it.
struct Ranked {
    std::vector<matcher::SampleFeature> features;
    matcher::Knowledge knowledge;
    matcher::SamplePrior prior;
    matcher::SampleRanking ranking;

    Ranked(std::vector<matcher::SampleFeature> observed, matcher::Knowledge known)
        : features(std::move(observed)), knowledge(std::move(known)),
          ranking(matcher::rank_sample(features, knowledge, matcher::nearby_candidates(knowledge),
                                       prior)) {}

    [[nodiscard]] std::vector<CandidateTerms> terms(std::size_t feature,
                                                    const matcher::Ranking &stated) const {
        return candidate_terms(
            {features, &ranking, &knowledge, matcher::nearby_candidates(knowledge), &prior.feature},
            feature, stated.candidates, stated.unlisted);
    }
    [[nodiscard]] std::vector<CandidateTerms> terms(std::size_t feature) const {
        return terms(feature, ranking.features[feature]);
    }
};

double sum_of(const CandidateTerms &terms) {
    double sum = terms.log_prior + terms.log_together + terms.log_further + terms.log_competition +
                 terms.log_recalibration;
    for (const ReadingTerm &reading : terms.readings) {
        sum += reading.log_ratio;
    }
    return sum;
}

/// The sums of all candidates' terms are the logarithms of their odds against `unlisted`.
void expect_sums(const std::vector<CandidateTerms> &terms, const matcher::Ranking &stated) {
    ASSERT_EQ(terms.size(), stated.candidates.size());
    for (std::size_t i = 0; i < terms.size(); ++i) {
        EXPECT_NEAR(sum_of(terms[i]), std::log(stated.candidates[i].probability / stated.unlisted),
                    1e-9);
    }
}

TEST(CandidateTerms, OneFeatureHasOnlyPriorAndReading) {
    const Ranked one({{{{0, 0.31, 0.01}}, {}}}, {{ladder_of_spots()}, {}});
    const auto terms = one.terms(0);
    expect_sums(terms, one.ranking.features[0]);
    const CandidateTerms &first = terms.front();
    const matcher::SystemModel &system = one.knowledge.systems[0];
    const Observation &observation = one.features[0].observations[0];
    EXPECT_EQ(one.ranking.features[0].candidates[0].compound, 2U);
    // 0.2 for unlisted, the rest for eight compounds alike.
    EXPECT_NEAR(first.log_prior, std::log(0.8 / 8 / 0.2), 1e-9);
    ASSERT_EQ(first.readings.size(), 1U);
    EXPECT_NEAR(
        first.readings[0].log_ratio,
        matcher::log_density({matcher::find_candidate(system, 2), nullptr}, observation, system,
                             matcher::shifts_at(observation, system)) -
            matcher::log_density(system.unlisted, Quantity::Rf, 0.31, observation.uncertainty),
        1e-9);
    EXPECT_GT(first.readings[0].log_ratio, 1.0);
    EXPECT_LT(terms.back().readings[0].log_ratio, -1.0);
    EXPECT_NEAR(first.readings[0].comparison.expected, 0.30, 0.002);
    EXPECT_DOUBLE_EQ(first.readings[0].widening, 1.0);
    EXPECT_NEAR(first.log_together, 0.0, 1e-9);
    EXPECT_NEAR(first.log_competition, 0.0, 1e-9);
    EXPECT_NEAR(first.log_recalibration, 0.0, 1e-9);
    EXPECT_NEAR(first.alone, first.joint, 1e-9);
    EXPECT_FALSE(first.rival);
}

TEST(CandidateTerms, AStandardInTheRunSetsTheTermOfTheReading) {
    // Compound 2 as a standard at 0.33 on this plate, where the library has 0.30; compound 9 as a
    // standard that the library does not hold.
    const matcher::StandardsInRun beside{{2, 0.33, 0.005, 1.0, 1e-5}, {9, 0.60, 0.005, 1.0, 1e-5}};
    const Observation spot{
        0, 0.335, 0.005, {}, std::make_shared<const matcher::StandardsInRun>(beside)};
    const Ranked one({{{spot}, {}}}, {{ladder_of_spots()}, {}});
    const auto terms = one.terms(0);
    expect_sums(terms, one.ranking.features[0]);
    ASSERT_EQ(one.ranking.features[0].candidates[0].compound, 2U);
    const ReadingTerm &reading = terms.front().readings.at(0);
    EXPECT_EQ(reading.comparison.basis, matcher::Basis::same_run);
    EXPECT_DOUBLE_EQ(reading.comparison.beside.value(), 0.33);
    EXPECT_NEAR(reading.comparison.in_library.value(), 0.30, 0.002);
    EXPECT_NEAR(reading.comparison.expected, 0.33, 0.004);
    EXPECT_DOUBLE_EQ(reading.widening, 1.0);
    for (std::size_t i = 0; i < terms.size(); ++i) {
        if (one.ranking.features[0].candidates[i].compound == 9U) {
            EXPECT_FALSE(terms[i].readings.at(0).comparison.in_library);
            EXPECT_DOUBLE_EQ(terms[i].readings[0].comparison.beside.value(), 0.60);
        }
    }
}

TEST(CandidateTerms, FurtherEvidenceIsATermOfItsOwn) {
    std::vector<double> further(kCompounds, 0.0);
    further[2] = 1.5;
    further[3] = -0.5;
    const Ranked one({{{{0, 0.35, 0.01}}, further}}, {{ladder_of_spots()}, {}});
    const auto terms = one.terms(0);
    expect_sums(terms, one.ranking.features[0]);
    EXPECT_DOUBLE_EQ(terms[0].log_further, 1.5);
    EXPECT_DOUBLE_EQ(terms[1].log_further, -0.5);
    EXPECT_NEAR(terms[1].log_prior, std::log(0.8 / 8 / 0.2), 1e-9);
}

TEST(CandidateTerms, ACompoundThatExplainsAnotherFeatureBetterIsHeldBack) {
    const Ranked two({{{{0, 0.300, 0.0}}, {}}, {{{0, 0.330, 0.0}}, {}}}, {{ladder_of_spots()}, {}});
    ASSERT_EQ(two.ranking.features[1].candidates[0].compound, 2U);
    const CandidateTerms better = two.terms(0).front();
    const CandidateTerms worse = two.terms(1).front();
    EXPECT_LT(worse.log_competition, better.log_competition);
    EXPECT_LT(worse.log_competition, -0.1);
    EXPECT_LT(worse.joint, worse.alone);
    ASSERT_TRUE(worse.rival);
    EXPECT_EQ(worse.rival->feature, 0U);
    EXPECT_DOUBLE_EQ(worse.rival->probability, two.ranking.features[0].candidates[0].probability);
    expect_sums(two.terms(1), two.ranking.features[1]);
}

TEST(CandidateTerms, RecalibrationIsATermOfItsOwn) {
    const Ranked one({{{{0, 0.32, 0.01}}, {}}}, {{ladder_of_spots()}, {}});
    const matcher::Ranking stated = matcher::recalibrated(one.ranking.features[0], {{0.7, 0.0}});
    const auto terms = one.terms(0, stated);
    expect_sums(terms, stated);
    // Odds between candidates are raised to the power; the rest is as computed.
    const auto before = [&](std::size_t i) {
        return sum_of(terms[i]) - terms[i].log_recalibration;
    };
    EXPECT_NEAR(before(0), std::log(terms[0].joint / one.ranking.features[0].unlisted), 1e-9);
    EXPECT_NEAR(sum_of(terms[0]) - sum_of(terms[1]), 0.7 * (before(0) - before(1)), 1e-9);
    EXPECT_LT(terms[0].log_recalibration, -0.001);
    EXPECT_GT(terms[1].log_recalibration, 0.01);
    EXPECT_DOUBLE_EQ(terms[0].stated, stated.candidates[0].probability);
}

TEST(CandidateTerms, CorrelatedSystemsCountForLessThanTwoReadings) {
    matcher::Knowledge knowledge{{ladder_of_spots(), ladder_of_spots()}, {}};
    const double place = matcher::to_model_scale(Quantity::Rf, 0.31);
    const Eigen::Matrix2d covariance{{0.04, 0.036}, {0.036, 0.04}};
    knowledge.dependence.unlisted.push_back({{0, 1}, Eigen::Vector2d::Constant(place), covariance});
    const Ranked one({{{{0, 0.31, 0.01}, {1, 0.31, 0.01}}, {}}}, knowledge);
    const CandidateTerms first = one.terms(0).front();
    expect_sums(one.terms(0), one.ranking.features[0]);
    EXPECT_EQ(first.readings.size(), 2U);
    // An unlisted compound would show alike values on both, so they tell less than two would.
    // What is error of the readings is independent, so that it tells a little more again.
    const double of_places =
        -matcher::log_together(knowledge.dependence.unlisted[0], {{0, place}, {1, place}});
    EXPECT_NEAR(first.log_together, of_places, 0.05);
    EXPECT_GT(first.log_together, of_places);
    EXPECT_LT(first.log_together, -0.3);
}

TEST(CandidateTerms, ReportsHowMuchWiderATransferredValueIs) {
    matcher::SystemModel system = ladder_of_spots();
    matcher::CandidateDensity &candidate = system.candidates[2];
    candidate.basis = matcher::Basis::transferred;
    candidate.scale *= 3.0;
    const Ranked one({{{{0, 0.31, 0.01}}, {}}}, {{system}, {}});
    const auto terms = one.terms(0);
    expect_sums(terms, one.ranking.features[0]);
    EXPECT_EQ(terms[0].readings[0].comparison.basis, matcher::Basis::transferred);
    EXPECT_NEAR(terms[0].readings[0].widening, 3.0, 0.05);
}

} // namespace
} // namespace cospot
