#include "library/proofs.h"

#include "library/changes.h"
#include "temporary_library.h"

#include <gtest/gtest.h>

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
    proof.several_systems = true;
    proof.questions = 321;
    proof.exponent = 0.75;
    proof.least_in_set = 0.875;
    proof.calibration_error = 0.0125;
    return proof;
}

TEST_F(Proofs, AreReadAsStored) {
    store(invented_proof());
    Database reopened = open_library(library_.file, Access::read);
    const auto found = newest_proof(reopened, Technique::gc, true);
    ASSERT_TRUE(found);
    EXPECT_EQ(found->technique, Technique::gc);
    EXPECT_TRUE(found->several_systems);
    EXPECT_EQ(found->questions, 321);
    EXPECT_EQ(found->exponent, 0.75);
    EXPECT_EQ(found->least_in_set, 0.875);
    EXPECT_EQ(found->calibration_error, 0.0125);
    EXPECT_EQ(found->at_utc.size(), 20U); // 2006-01-31T09:30:00Z
}

TEST_F(Proofs, NoneIsStoredInANewLibrary) {
    EXPECT_FALSE(newest_proof(database_, Technique::gc, true));
}

TEST_F(Proofs, CountForTheirTechniqueAndKindOnly) {
    store(invented_proof());
    EXPECT_FALSE(newest_proof(database_, Technique::gc, false));
    EXPECT_FALSE(newest_proof(database_, Technique::tlc, true));
    EXPECT_TRUE(newest_proof(database_, Technique::gc, true));
}

TEST_F(Proofs, TheNewestCounts) {
    store(invented_proof());
    Proof later = invented_proof();
    later.exponent = 1.25;
    store(later);
    EXPECT_EQ(newest_proof(database_, Technique::gc, true)->exponent, 1.25);
}

TEST_F(Proofs, ImpossibleCorrectionsAreRefused) {
    Proof proof = invented_proof();
    proof.exponent = 0.0;
    EXPECT_ANY_THROW(store(proof));
    proof = invented_proof();
    proof.least_in_set = 1.01;
    EXPECT_ANY_THROW(store(proof));
    EXPECT_FALSE(newest_proof(database_, Technique::gc, true));
}

} // namespace
} // namespace cospot::library
