#include "descriptors/substructure.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace cospot::descriptors {
namespace {

using Flags = std::vector<bool>;

std::string refusal_of_pattern(const std::string &smarts,
                               const std::vector<std::string> &smiles = {"C"}) {
    try {
        static_cast<void>(substructure_matches(smarts, smiles));
    } catch (const InputError &error) {
        EXPECT_EQ(to_string(error.where()), "");
        return error.found() + "; " + error.expected();
    }
    ADD_FAILURE() << "not refused: " << smarts;
    return {};
}

TEST(Substructure, AnswersInTheOrderOfTheStructures) {
    const std::vector<std::string> smiles{"CCO", "Oc1ccccc1", "CC(=O)O", "CCCC"};
    EXPECT_EQ(substructure_matches("[OX2H]", smiles), (Flags{true, true, true, false}));
    EXPECT_EQ(substructure_matches("c[OX2H]", smiles), (Flags{false, true, false, false}));
    EXPECT_EQ(substructure_matches("C(=O)[OX2H]", smiles), (Flags{false, false, true, false}));
    EXPECT_EQ(substructure_matches("[$([OX2H]C);!$(OC=O)]", smiles),
              (Flags{true, false, false, false}));
    EXPECT_EQ(substructure_matches("C", {}), Flags{});
}

TEST(Substructure, FindsAPartHoweverItIsWritten) {
    EXPECT_EQ(substructure_matches("c1ccccc1", {"C1=CC=CC=C1C", "C1CCCCC1"}), (Flags{true, false}));
    EXPECT_EQ(substructure_matches("[H]O", {"CCO", "COC"}), (Flags{true, false}));
    EXPECT_EQ(substructure_matches("[N+](=O)[O-]", {"CN(=O)=O"}), Flags{true});
    EXPECT_EQ(substructure_matches("[Na+].[Cl-]", {"[Cl-].[Na+]", "CCl"}), (Flags{true, false}));
}

TEST(Substructure, AsksForTheStereochemistryThatThePatternGives) {
    const std::vector<std::string> smiles{"C[C@H](N)C(=O)O", "C[C@@H](N)C(=O)O", "CC(N)C(=O)O"};
    EXPECT_EQ(substructure_matches("C[C@H](N)C(=O)O", smiles), (Flags{true, false, false}));
    EXPECT_EQ(substructure_matches("CC(N)C(=O)O", smiles), (Flags{true, true, true}));
    EXPECT_EQ(substructure_matches("C/C=C/C", {"C/C=C/C", "C/C=C\\C"}), (Flags{true, false}));
}

TEST(Substructure, RefusesWhatIsNoPattern) {
    EXPECT_NE(refusal_of_pattern("").find("nothing is there"), std::string::npos);
    EXPECT_NE(refusal_of_pattern("[OH").find("\"[OH\""), std::string::npos);
    EXPECT_NE(refusal_of_pattern("C C").find("character 2"), std::string::npos);
    EXPECT_NE(refusal_of_pattern("CC|x|").find("an extension begins at character 3"),
              std::string::npos);
    EXPECT_NE(refusal_of_pattern("CO>>CN").find("a reaction"), std::string::npos);
    EXPECT_NE(refusal_of_pattern("CO>").find("SMARTS"), std::string::npos);
    EXPECT_NE(refusal_of_pattern("hydroxy").find("a SMARTS pattern"), std::string::npos);
    EXPECT_NE(refusal_of_pattern(std::string(2001, 'C')).find("2001 characters"),
              std::string::npos);
    EXPECT_NE(refusal_of_pattern("[$(C").find("SMARTS"), std::string::npos);
}

TEST(Substructure, RefusesAStructureThatCannotBeRead) {
    const std::string found = refusal_of_pattern("C", {"CC", "C*C"});
    EXPECT_NE(found.find("\"C*C\""), std::string::npos) << found;
    EXPECT_NE(found.find("the SMILES of one compound"), std::string::npos) << found;
}

TEST(Substructure, IsFoundWithoutAWordOnTheStandardStreams) {
    testing::internal::CaptureStderr();
    static_cast<void>(refusal_of_pattern("[OH"));
    static_cast<void>(refusal_of_pattern("C1CC"));
    EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
}

} // namespace
} // namespace cospot::descriptors
