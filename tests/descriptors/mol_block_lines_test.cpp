// Mol blocks whose lines contradict each other. RDKit loses memory over most of them, which the
// address sanitizer sees where these tests are built with it.
#include "descriptors/structure.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <string>

namespace cospot::descriptors {
namespace {

void expect_line_refusal(const std::string &block, const std::string &reason) {
    try {
        static_cast<void>(read_mol_block(block));
        ADD_FAILURE() << "not refused:\n" << block;
    } catch (const InputError &error) {
        EXPECT_NE(error.found().find(reason), std::string::npos) << error.found();
    }
}

/// Ethanol as V2000, with other lines for its bonds and properties.
std::string v2000_bonds(const std::string &bonds, const std::string &properties = "") {
    return "invented\n\n\n  3  2  0  0  0  0            999 V2000\n"
           "    0.0000    0.0000    0.0000 C   0  0\n"
           "    1.3000    0.7500    0.0000 C   0  0\n"
           "    2.6000    0.0000    0.0000 O   0  0\n" +
           bonds + properties + "M  END\n";
}

/// Ethanol as V3000, with other lines for its bonds.
std::string v3000(const std::string &bonds) {
    return "invented\n\n\n  0  0  0     0  0            999 V3000\nM  V30 BEGIN CTAB\n"
           "M  V30 COUNTS 3 2 0 0 0\nM  V30 BEGIN ATOM\nM  V30 1 C 0 0 0 0\n"
           "M  V30 2 C 1.3 0.75 0 0\nM  V30 3 O 2.6 0 0 0\nM  V30 END ATOM\nM  V30 BEGIN BOND\n" +
           bonds + "M  V30 END BOND\nM  V30 END CTAB\nM  END\n";
}

TEST(MolBlockLines, AreReadWhereNothingIsWrong) {
    for (const std::string &block : {v2000_bonds("  1  2  1  0\n  2  3  1  0  0  0\n"),
                                     v3000("M  V30 1 1 1 2\nM  V30 2 1 2 3 CFG=0\n")}) {
        EXPECT_EQ(read_mol_block(block).formula, "C2H6O");
    }
}

TEST(MolBlockLines, ABondMustJoinTwoKnownAtomsNotYetBonded) {
    const std::string good = "  1  2  1  0\n";
    expect_line_refusal(v2000_bonds(good + "            \n"),
                        "line 9 does not name the two atoms of a bond");
    expect_line_refusal(v2000_bonds(good + "  2  4  1  0\n"), "line 9 names atom 4 of 3");
    expect_line_refusal(v2000_bonds(good + "  2  2  1  0\n"),
                        "line 9 binds atoms that are bound already");
    expect_line_refusal(v2000_bonds(good + "  2  1  1  0\n"),
                        "line 9 binds atoms that are bound already");
    expect_line_refusal(v2000_bonds(good), "too few for 3 atoms and 2 bonds");
}

TEST(MolBlockLines, AnAmbiguousBondIsRefusedWithItsLine) {
    expect_line_refusal(v2000_bonds("  1  2  5  0\n  2  3  1  0\n"), "line 8: a bond is left open");
    expect_line_refusal(v2000_bonds("  1  2  1  0  0  1\n  2  3  1  0\n"),
                        "line 8: a bond is left open");
    expect_line_refusal(v2000_bonds("  1  2  1  0     x\n  2  3  1  0\n"),
                        "line 8: a bond is left open");
}

TEST(MolBlockLines, APropertyOfAMissingAtomIsRefused) {
    const std::string bonds = "  1  2  1  0\n  2  3  1  0\n";
    for (const char *line : {"M  CHG  1   9  -1\n", "M  ISO  1   0  13\n", "M  CHG  2   1  -1\n",
                             "M  STY  1   1 DAT\nM  SAL   1  1   9\n"}) {
        expect_line_refusal(v2000_bonds(bonds, line), "");
    }
}

TEST(MolBlockLines, AnIsotopeThatNoElementHasIsRefused) {
    const std::string bonds = "  1  2  1  0\n  2  3  1  0\n";
    for (const char *line : {"M  ISO  1   1 999\n", "M  ISO  1   1   2\n"}) {
        expect_line_refusal(v2000_bonds(bonds, line), "there is no isotope");
    }
}

TEST(MolBlockLines, BondLinesOfV3000AreCheckedLikeThoseOfV2000) {
    const std::string good = "M  V30 1 1 1 2\n";
    expect_line_refusal(v3000(good + "M  V30 2 1 2 4\n"), "does not name two of the atoms above");
    expect_line_refusal(v3000(good + "M  V30 2 1 2\n"), "does not name two of the atoms above");
    expect_line_refusal(v3000(good + "M  V30 2 1 2 1\n"), "binds atoms that are bound already");
    expect_line_refusal(v3000(good + "M  V30 2 8 2 3\n"), "line 14: a bond is left open");
    expect_line_refusal(v3000(good + "M  V30 2 1 2 3 CFG\n"),
                        "\"CFG\" behind a bond is no KEY=NUMBER");
    expect_line_refusal(v3000(good + "M  V30 2 1 2 3 CFG=x\n"), "is no KEY=NUMBER");
}

} // namespace
} // namespace cospot::descriptors
