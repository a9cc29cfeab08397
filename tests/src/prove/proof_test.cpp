#include "prove/proof.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace cospot {
namespace {

using matcher::kUnlisted;

JudgedQuestion question(std::vector<matcher::RankedCandidate> candidates, double unlisted,
                        std::size_t truth, std::size_t part = 0) {
    return {part, library::ProofQuestion::run, 1, {{std::move(candidates), unlisted}, truth}};
}

/// Five questions, two of them about compounds that were left out of the library.
std::vector<JudgedQuestion> five_questions() {
    return {question({{7, 0.85}, {3, 0.04}}, 0.11, 7),    // right
            question({{1, 0.83}}, 0.17, kUnlisted),       // unlisted, ranked second
            question({{1, 0.555}, {2, 0.44}}, 0.005, 2),  // second candidate
            question({}, 1.0, kUnlisted),                 // right
            question({{1, 0.96}, {2, 0.032}}, 0.008, 2)}; // outside the set of 95 %
}

void expect_bin(const ReliabilityBin &bin, double stated, double right, std::size_t count) {
    EXPECT_NEAR(bin.stated, stated, 1e-12);
    EXPECT_NEAR(bin.right, right, 1e-12);
    EXPECT_EQ(bin.count, count);
}

TEST(Proof, CountsQuestionsAndFirstCandidates) {
    const ProofResult result = prove(five_questions());
    EXPECT_EQ(result.questions, 5U);
    EXPECT_EQ(result.absent, 2U);
    EXPECT_NEAR(result.first_right, 1.0 / 3.0, 1e-12); // of the three that the library holds
}

TEST(Proof, GathersStatementsInTenBins) {
    const auto bins = prove(five_questions()).as_stated.bins;
    expect_bin(bins[0], (0.04 + 0.032) / 2, 0.5, 2); // 0.005 and 0.008 are too small to count
    expect_bin(bins[1], (0.11 + 0.17) / 2, 0.5, 2);
    expect_bin(bins[2], 0.0, 0.0, 0);
    expect_bin(bins[4], 0.44, 1.0, 1);
    expect_bin(bins[5], 0.555, 0.0, 1);
    expect_bin(bins[8], (0.85 + 0.83) / 2, 0.5, 2);
    expect_bin(bins[9], (1.0 + 0.96) / 2, 0.5, 2);
}

TEST(Proof, CalibrationErrorWeighsBinsByTheirStatements) {
    // By bins: 1 - 0.072, 1 - 0.28, 1 - 0.44, 0.555, 1.68 - 1, 1.96 - 1; ten statements.
    EXPECT_NEAR(prove(five_questions()).as_stated.calibration_error,
                (0.928 + 0.72 + 0.56 + 0.555 + 0.68 + 0.96) / 10.0, 1e-12);
}

TEST(Proof, LogLossIsOfTheTruth) {
    EXPECT_NEAR(prove(five_questions()).as_stated.log_loss,
                -(std::log(0.85) + std::log(0.17) + std::log(0.44) + std::log(0.032)) / 5.0, 1e-12);
    // A truth that is no candidate counts as one of a millionth.
    const std::vector<JudgedQuestion> missed{question({{1, 0.9}}, 0.1, 5)};
    EXPECT_NEAR(prove(missed).as_stated.log_loss, -std::log(1e-6), 1e-9);
}

TEST(Proof, SetsOfNinetyFivePercent) {
    // {7, unlisted}, {1, unlisted}, {1, 2}, {unlisted} and {1}, which lacks the truth.
    const Reliability stated = prove(five_questions()).as_stated;
    EXPECT_NEAR(stated.set_coverage, 4.0 / 5.0, 1e-12);
    EXPECT_NEAR(stated.set_length, (1 + 1 + 2 + 0 + 1) / 5.0, 1e-12);
}

TEST(Proof, VerdictUsesProbabilitiesFromEightTenths) {
    const ReliabilityBin sure = verdict(prove(five_questions()).as_stated);
    expect_bin(sure, (0.85 + 0.83 + 1.0 + 0.96) / 4, 0.5, 4);
    const std::vector<JudgedQuestion> unsure{question({{1, 0.79}}, 0.21, 1)};
    expect_bin(verdict(prove(unsure).as_stated), 0.0, 0.0, 0);
}

TEST(Proof, OverconfidenceNeedsManyStatementsAndAClearMiss) {
    EXPECT_TRUE(is_too_sure({0.95, 0.80, 100}));
    EXPECT_FALSE(is_too_sure({0.95, 0.91, 1000})); // less than 0.05 off
    EXPECT_FALSE(is_too_sure({0.90, 0.80, 25}));   // two standard errors are 0.12
    EXPECT_FALSE(is_too_sure({0.95, 0.0, 19}));    // too few to say
    EXPECT_FALSE(is_too_sure({0.85, 1.0, 1000}));  // modest is no fault
}

TEST(Proof, ACorrectionIsNotTestedOnItsOwnQuestions) {
    // All in one part: the other parts teach nothing, so that nothing speaks for a correction.
    const ProofResult result = prove(five_questions());
    EXPECT_EQ(result.corrected.calibration_error, result.as_stated.calibration_error);
    EXPECT_EQ(result.corrected.log_loss, result.as_stated.log_loss);
    EXPECT_FALSE(result.is_corrected);
    EXPECT_EQ(result.recalibration.measured.exponent, 1.0);
}

TEST(Proof, ACorrectionThatDoesWorseOnOtherValuesIsNotKept) {
    // In nine parts the first candidate is right somewhat oftener than stated, in the tenth, which
    // holds half of the questions, less often: what the others teach makes each of them worse.
    std::vector<JudgedQuestion> questions;
    for (std::size_t i = 0; i < 900; ++i) {
        const bool is_last = i % 2 == 0;
        const bool right = is_last ? i % 20 < 8 : i % 20 < 17;
        questions.push_back(question({{1, 0.6}, {2, 0.39}}, 0.01, right ? 1 : 2,
                                     is_last ? kProofParts - 1 : i % (kProofParts - 1)));
    }
    const ProofResult result = prove(questions);
    EXPECT_GT(result.tried_log_loss, result.as_stated.log_loss);
    EXPECT_FALSE(result.is_corrected);
    EXPECT_EQ(result.recalibration.measured.exponent, 1.0);
    EXPECT_GT(result.recalibration.measured.least_in_set, 0.0);
    EXPECT_EQ(result.corrected.log_loss, result.as_stated.log_loss);
    EXPECT_EQ(result.corrected.calibration_error, result.as_stated.calibration_error);
}

TEST(Proof, OverconfidenceIsSeenAndCorrected) {
    // 95 % is right seven times in ten.
    std::mt19937 engine(1);
    std::vector<JudgedQuestion> questions;
    for (std::size_t i = 0; i < 1000; ++i) {
        const bool right = std::uniform_real_distribution<double>(0.0, 1.0)(engine) < 0.7;
        questions.push_back(question({{1, 0.95}, {2, 0.04}}, 0.01, right ? 1 : 2, i % kProofParts));
    }
    const ProofResult result = prove(questions);
    EXPECT_NEAR(verdict(result.as_stated).stated, 0.95, 1e-9);
    EXPECT_NEAR(verdict(result.as_stated).right, 0.7, 0.05);
    EXPECT_GT(result.as_stated.calibration_error, 0.1);
    EXPECT_LT(result.corrected.calibration_error, 0.05);
    EXPECT_LT(result.corrected.log_loss, result.as_stated.log_loss);
    EXPECT_TRUE(result.is_corrected);
    EXPECT_LT(result.recalibration.measured.exponent, 0.7);
    EXPECT_NEAR(result.as_stated.set_coverage, 0.7, 0.05);
    EXPECT_GE(result.corrected.set_coverage, 0.95);
}

/// A question about one of two candidates of a basis, of which the first is right so often.
JudgedQuestion of_basis(matcher::Basis basis, double stated, bool right, std::size_t part) {
    JudgedQuestion one = question({{1, stated}, {2, 0.99 - stated}}, 0.01, right ? 1 : 2, part);
    one.judged.basis = basis;
    for (matcher::RankedCandidate &candidate : one.judged.ranking.candidates) {
        candidate.basis = basis;
    }
    return one;
}

TEST(Proof, OverconfidentTransferIsCorrectedApartFromMeasured) {
    // Both say 90 %: of measured compounds it is right, of transferred ones in 65 of 100.
    std::vector<JudgedQuestion> questions;
    for (std::size_t i = 0; i < 1000; ++i) {
        const std::size_t part = (i / 20) % kProofParts;
        questions.push_back(of_basis(matcher::Basis::measured, 0.9, i % 11 != 0, part));
        questions.push_back(of_basis(matcher::Basis::transferred, 0.9, i % 20 < 13, part));
    }
    const ProofResult result = prove(questions);
    EXPECT_LT(result.recalibration.transferred.exponent, 0.6);
    EXPECT_NEAR(result.recalibration.measured.exponent, 1.0, 0.06);
    ASSERT_EQ(result.by_basis.size(), 2U);
    const BasisResult &measured = result.by_basis[0];
    const BasisResult &transferred = result.by_basis[1];
    EXPECT_EQ(measured.basis, matcher::Basis::measured);
    EXPECT_TRUE(transferred.is_corrected);
    EXPECT_NEAR(measured.corrected.log_loss, measured.as_stated.log_loss, 0.01);
    EXPECT_LT(transferred.corrected.log_loss, transferred.as_stated.log_loss - 0.05);
    EXPECT_NEAR(transferred.first_right, 0.65, 1e-9);
    EXPECT_GE(transferred.corrected.set_coverage, 0.93);
    EXPECT_FALSE(is_any_too_sure(result));
}

TEST(Proof, UnlistedIsRaisedWhereAbsentCompoundsAreNamed) {
    // One in five is absent, but all look as if they were listed at 0.95.
    std::vector<JudgedQuestion> questions;
    for (std::size_t i = 0; i < 2000; ++i) {
        const std::size_t part = (i / 20) % kProofParts;
        questions.push_back(question({{1, 0.95}}, 0.05, i % 5 == 0 ? kUnlisted : 1, part));
    }
    const ProofResult result = prove(questions);
    EXPECT_EQ(result.absent_compounds.questions, 400U);
    EXPECT_TRUE(result.absent_compounds.is_corrected);
    // As often as they are: odds of 1 to 4 instead of 1 to 19.
    EXPECT_NEAR(result.recalibration.unlisted_offset, std::log(19.0 / 4.0), 0.1);
    EXPECT_NEAR(result.absent_compounds.unlisted, 0.2, 0.02);
    EXPECT_LT(result.corrected.log_loss, result.as_stated.log_loss);
    EXPECT_EQ(result.recalibration.measured.exponent, 1.0);
}

TEST(Proof, UnlistedIsUnchangedWhereCalibrated) {
    std::vector<JudgedQuestion> questions;
    for (std::size_t i = 0; i < 2000; ++i) {
        const bool is_low = i % 2 == 0;
        const bool is_absent = is_low ? i % 20 == 0 : i % 10 < 3;
        questions.push_back(question({{1, is_low ? 0.9 : 0.7}}, is_low ? 0.1 : 0.3,
                                     is_absent ? kUnlisted : 1, (i / 20) % kProofParts));
    }
    EXPECT_NEAR(prove(questions).recalibration.unlisted_offset, 0.0, 0.1);
}

} // namespace
} // namespace cospot
