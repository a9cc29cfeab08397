#include "library/proofs.h"

#include "library/changes.h"
#include "temporary_library.h"

#include <gtest/gtest.h>

#include <string>

namespace cospot::library {
namespace {

class Proofs : public testing::Test {
protected:
    void store(const Proof &proof) {
        Transaction transaction(database_);
        add_proof(database_, proof, begin_change(database_, "prove", ""));
        transaction.commit();
    }

    TemporaryLibrary library_;
    Database database_ = library_.open();
};

Proof invented_proof() {
    Proof proof;
    proof.technique = Technique::gc;
    proof.question = ProofQuestion::new_system;
    proof.systems = 2;
    proof.questions = 321;
    proof.measured_exponent = 0.75;
    proof.transferred_exponent = 0.5;
    proof.unlisted_offset = -0.25;
    proof.measured_limit = 0.0625;
    proof.transferred_limit = 0.03125;
    proof.unlisted_limit = 0.0;
    proof.calibration_error = 0.0125;
    return proof;
}

TEST_F(Proofs, AreReadAsStored) {
    store(invented_proof());
    Database reopened = open_library(library_.file, Access::read);
    const auto found = newest_proof(reopened, Technique::gc, ProofQuestion::new_system, 2);
    ASSERT_TRUE(found);
    EXPECT_EQ(found->technique, Technique::gc);
    EXPECT_EQ(found->question, ProofQuestion::new_system);
    EXPECT_EQ(found->systems, 2);
    EXPECT_EQ(found->questions, 321);
    EXPECT_EQ(found->measured_exponent, 0.75);
    EXPECT_EQ(found->transferred_exponent, 0.5);
    EXPECT_EQ(found->unlisted_offset, -0.25);
    EXPECT_EQ(found->measured_limit, 0.0625);
    EXPECT_EQ(found->transferred_limit, 0.03125);
    EXPECT_EQ(found->unlisted_limit, 0.0);
    EXPECT_EQ(found->calibration_error, 0.0125);
    EXPECT_EQ(found->at_utc.size(), 20U); // 2006-01-31T09:30:00Z
}

TEST_F(Proofs, NoneIsStoredInANewLibrary) {
    EXPECT_FALSE(newest_proof(database_, Technique::gc, ProofQuestion::run, 1));
    EXPECT_TRUE(newest_proof_day(database_).empty());
    EXPECT_TRUE(day_of_outdated_proof(database_).empty());
}

TEST_F(Proofs, CountForTheirTechniqueAndQuestionOnly) {
    store(invented_proof());
    EXPECT_FALSE(newest_proof(database_, Technique::gc, ProofQuestion::run, 2));
    EXPECT_FALSE(newest_proof(database_, Technique::gc, ProofQuestion::new_system, 1));
    EXPECT_FALSE(newest_proof(database_, Technique::tlc, ProofQuestion::new_system, 2));
    EXPECT_TRUE(newest_proof(database_, Technique::gc, ProofQuestion::new_system, 2));
}

TEST_F(Proofs, TheNewestCounts) {
    store(invented_proof());
    Proof later = invented_proof();
    later.measured_exponent = 1.25;
    store(later);
    EXPECT_EQ(
        newest_proof(database_, Technique::gc, ProofQuestion::new_system, 2)->measured_exponent,
        1.25);
}

TEST_F(Proofs, TheNewestHidesAnswersOfEarlierOnes) {
    store(invented_proof());
    Proof later = invented_proof();
    later.question = ProofQuestion::day;
    store(later);
    EXPECT_FALSE(newest_proof(database_, Technique::gc, ProofQuestion::new_system, 2));
    EXPECT_TRUE(newest_proof(database_, Technique::gc, ProofQuestion::day, 2));
}

TEST_F(Proofs, ImpossibleCorrectionsAreRefused) {
    Proof proof = invented_proof();
    proof.measured_exponent = 0.0;
    EXPECT_ANY_THROW(store(proof));
    proof = invented_proof();
    proof.transferred_limit = 1.01;
    EXPECT_ANY_THROW(store(proof));
    proof = invented_proof();
    proof.systems = 0;
    EXPECT_ANY_THROW(store(proof));
    EXPECT_FALSE(newest_proof(database_, Technique::gc, ProofQuestion::new_system, 2));
}

TEST_F(Proofs, OneOfAnEarlierVersionIsOutdatedUntilTheNext) {
    Transaction transaction(database_);
    const auto change = begin_change(database_, "prove", "");
    database_.execute("INSERT INTO proof (technique, several_systems, questions, exponent, "
                      "least_in_set, calibration_error, change_id) VALUES ('gc', 0, 300, 0.8, "
                      "0.05, 0.01, " +
                      std::to_string(as_number(change)) + ")");
    transaction.commit();
    EXPECT_EQ(day_of_outdated_proof(database_).size(), 10U);
    EXPECT_FALSE(newest_proof(database_, Technique::gc, ProofQuestion::run, 1));
    store(invented_proof());
    EXPECT_TRUE(day_of_outdated_proof(database_).empty());
}

} // namespace
} // namespace cospot::library
