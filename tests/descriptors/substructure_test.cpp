#include "descriptors/substructure.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace cospot::descriptors {
namespace {

using Flags = std::vector<bool>;

Flags matches(const std::string &smarts, const std::vector<std::string> &smiles) {
    std::vector<std::size_t> undecided;
    Flags flags = substructure_matches(smarts, smiles, undecided);
    EXPECT_TRUE(undecided.empty());
    return flags;
}

std::string refusal_of_pattern(const std::string &smarts,
                               const std::vector<std::string> &smiles = {"C"}) {
    try {
        static_cast<void>(matches(smarts, smiles));
    } catch (const InputError &error) {
        EXPECT_EQ(to_string(error.where()), "");
        return error.found() + "; " + error.expected();
    }
    ADD_FAILURE() << "not refused: " << smarts;
    return {};
}

TEST(Substructure, AnswersInTheOrderOfTheStructures) {
    const std::vector<std::string> smiles{"CCO", "Oc1ccccc1", "CC(=O)O", "CCCC"};
    EXPECT_EQ(matches("[OX2H]", smiles), (Flags{true, true, true, false}));
    EXPECT_EQ(matches("c[OX2H]", smiles), (Flags{false, true, false, false}));
    EXPECT_EQ(matches("C(=O)[OX2H]", smiles), (Flags{false, false, true, false}));
    EXPECT_EQ(matches("[$([OX2H]C);!$(OC=O)]", smiles), (Flags{true, false, false, false}));
    EXPECT_EQ(matches("C", {}), Flags{});
}

TEST(Substructure, FindsAPartHoweverItIsWritten) {
    EXPECT_EQ(matches("c1ccccc1", {"C1=CC=CC=C1C", "C1CCCCC1"}), (Flags{true, false}));
    EXPECT_EQ(matches("[H]O", {"CCO", "COC"}), (Flags{true, false}));
    EXPECT_EQ(matches("[N+](=O)[O-]", {"CN(=O)=O"}), Flags{true});
    EXPECT_EQ(matches("[Na+].[Cl-]", {"[Cl-].[Na+]", "CCl"}), (Flags{true, false}));
}

TEST(Substructure, MatchesStereochemistryOnlyWherePatternGivesIt) {
    const std::vector<std::string> smiles{"C[C@H](N)C(=O)O", "C[C@@H](N)C(=O)O", "CC(N)C(=O)O"};
    EXPECT_EQ(matches("C[C@H](N)C(=O)O", smiles), (Flags{true, false, false}));
    EXPECT_EQ(matches("CC(N)C(=O)O", smiles), (Flags{true, true, true}));
    EXPECT_EQ(matches("C/C=C/C", {"C/C=C/C", "C/C=C\\C"}), (Flags{true, false}));
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

TEST(Substructure, RefusingAPatternPrintsNothing) {
    testing::internal::CaptureStderr();
    static_cast<void>(refusal_of_pattern("[OH"));
    static_cast<void>(refusal_of_pattern("C1CC"));
    EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
}

TEST(Substructure, ASearchThatDoesNotEndIsGivenUp) {
    // An odd ring does not fit into a grid of squares, and RDKit tries all ways to find that out.
    std::string grid;
    constexpr int side = 10;
    const auto bond = [](int row, int column) { // between a row and the next one
        return "%" + std::to_string(10 + column + side * (row % 2));
    };
    for (int row = 0; row < side; ++row) {
        for (int column = 0; column < side; ++column) {
            grid += "C";
            grid += row > 0 ? bond(row - 1, column) : "";
            grid += row + 1 < side ? bond(row, column) : "";
        }
        grid += row + 1 < side ? "." : "";
    }
    std::string ring = "C1";
    ring += std::string(29, 'C') + "C1";
    std::vector<std::size_t> undecided;
    const Flags flags = substructure_matches(ring, {"CCO", grid, ring}, undecided);
    EXPECT_EQ(flags, (Flags{false, false, true}));
    EXPECT_EQ(undecided, std::vector<std::size_t>{1});
}

} // namespace
} // namespace cospot::descriptors
