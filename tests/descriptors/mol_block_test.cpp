#include "descriptors/structure.h"

#include "shared/error.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace cospot::descriptors {
namespace {

struct Atom {
    std::string symbol;
    double x;
    double y;
    double z = 0.0;
};

struct Bond {
    int from;
    int to;
    int order;
    int stereo = 0; ///< 1 wedge up, 6 wedge down, 4 wavy, 3 crossed double bond
};

/// The layout is that of "CTfile Formats" (V2000), its columns of fixed width.
std::string v2000(const std::vector<Atom> &atoms, const std::vector<Bond> &bonds,
                  const std::string &properties = {}, const std::string &dimension = "2D") {
    std::string block = "invented\n  made    0101250000" + dimension + "\n\n";
    block += fmt::format("{:3}{:3}  0  0  0  0  0  0  0  0999 V2000\n", atoms.size(), bonds.size());
    for (const Atom &atom : atoms) {
        block += fmt::format("{:10.4f}{:10.4f}{:10.4f} {:<3} 0  0  0  0  0  0  0  0  0  0  0  0\n",
                             atom.x, atom.y, atom.z, atom.symbol);
    }
    for (const Bond &bond : bonds) {
        block += fmt::format("{:3}{:3}{:3}{:3}\n", bond.from, bond.to, bond.order, bond.stereo);
    }
    return block + properties + "M  END\n";
}

const std::vector<Bond> ethanol_bonds{{1, 2, 1}, {2, 3, 1}};

std::string ethanol() {
    return v2000({{"C", 0, 0}, {"C", 1.3, 0.75}, {"O", 2.6, 0}}, ethanol_bonds);
}

/// Alanine with the amino group to the right, the methyl group below, the wedge at the nitrogen.
std::string alanine(int wedge) {
    return v2000({{"C", 0, 0},
                  {"N", 1.3, 0.75},
                  {"C", 0, -1.5},
                  {"C", -1.3, 0.75},
                  {"O", -1.3, 2.25},
                  {"O", -2.6, 0}},
                 {{1, 2, 1, wedge}, {1, 3, 1}, {1, 4, 1}, {4, 5, 2}, {4, 6, 1}});
}

std::string butene(double last_y, int stereo = 0) {
    return v2000({{"C", -1.3, 0.75}, {"C", 0, 0}, {"C", 1.5, 0}, {"C", 2.8, last_y}},
                 {{1, 2, 1}, {2, 3, 2, stereo}, {3, 4, 1}});
}

std::string v3000(const std::string &atoms, const std::string &bonds, const std::string &counts,
                  const std::string &collection = {}) {
    return "invented\n  made    01012500002D\n\n  0  0  0     0  0            999 V3000\n"
           "M  V30 BEGIN CTAB\nM  V30 COUNTS " +
           counts + "\nM  V30 BEGIN ATOM\n" + atoms + "M  V30 END ATOM\nM  V30 BEGIN BOND\n" +
           bonds + "M  V30 END BOND\n" + collection + "M  V30 END CTAB\nM  END\n";
}

std::string butanol_v3000(const std::string &collection) {
    return v3000("M  V30 1 C -1.3 0.75 0 0\nM  V30 2 C 0 0 0 0\nM  V30 3 O 0 -1.5 0 0\n"
                 "M  V30 4 C 1.3 0.75 0 0\nM  V30 5 C 2.6 0 0 0\n",
                 "M  V30 1 1 1 2\nM  V30 2 1 2 3 CFG=1\nM  V30 3 1 2 4\nM  V30 4 1 4 5\n",
                 "5 4 0 0 0", collection);
}

std::string refusal(const std::string &block) {
    try {
        static_cast<void>(read_mol_block(block));
    } catch (const InputError &error) {
        EXPECT_EQ(to_string(error.where()), "");
        EXPECT_NE(error.expected().find("mol block"), std::string::npos);
        return error.found();
    }
    ADD_FAILURE() << "not refused:\n" << block;
    return {};
}

void expect_refusal(const std::string &block, const std::string &reason) {
    EXPECT_NE(refusal(block).find(reason), std::string::npos) << refusal(block);
}

// pubchem, read.
TEST(MolBlock, ReadsAsTheCompoundThatItDraws) {
    const Structure structure = read_mol_block(ethanol());
    EXPECT_EQ(structure.inchikey, "LFQSCWFLJHTTHZ-UHFFFAOYSA-N");
    EXPECT_EQ(structure.formula, "C2H6O");
    EXPECT_EQ(structure.smiles, read_smiles("CCO").smiles);
    EXPECT_EQ(structure.tautomer, read_smiles("CCO").tautomer);
    EXPECT_EQ(structure.parent_inchikey, structure.inchikey);
    EXPECT_NEAR(structure.average_mass, 46.069, 0.001);
}

TEST(MolBlock, ReadsTheSecondVersion) {
    const std::string block = v3000("M  V30 1 C 0 0 0 0\nM  V30 2 C 1.3 0.75 0 0\n"
                                    "M  V30 3 O 2.6 0 0 0\n",
                                    "M  V30 1 1 1 2\nM  V30 2 1 2 3\n", "3 2 0 0 0");
    EXPECT_EQ(read_mol_block(block).inchikey, "LFQSCWFLJHTTHZ-UHFFFAOYSA-N");
}

TEST(MolBlock, ReadsBothLineEnds) {
    std::string block = ethanol();
    for (std::size_t at = 0; (at = block.find('\n', at)) != std::string::npos; at += 2) {
        block.insert(at, "\r");
    }
    EXPECT_EQ(read_mol_block(block).inchikey, "LFQSCWFLJHTTHZ-UHFFFAOYSA-N");
}

// pubchem, read: L- and D-alanine. With the hydrogen pointing away, amino, carboxyl and methyl
// group turn counterclockwise in the L form, which is (S) by the Cahn-Ingold-Prelog rules.
TEST(MolBlock, TakesCentresFromTheWedges) {
    const std::vector<std::string> both{"QNAYBMKLOCPYGJ-REOHCLBHSA-N",
                                        "QNAYBMKLOCPYGJ-UWTATZPHSA-N"};
    EXPECT_EQ(read_mol_block(alanine(1)).inchikey, both[0]);
    EXPECT_EQ(read_mol_block(alanine(6)).inchikey, both[1]);
    EXPECT_FALSE(read_mol_block(alanine(1)).has_unassigned_stereo);
    for (const int open : {0, 4}) {
        EXPECT_EQ(read_mol_block(alanine(open)).inchikey, "QNAYBMKLOCPYGJ-UHFFFAOYSA-N") << open;
        EXPECT_TRUE(read_mol_block(alanine(open)).has_unassigned_stereo) << open;
    }
}

// pubchem, read: (E)- and (Z)-but-2-ene.
TEST(MolBlock, TakesDoubleBondsFromTheDrawing) {
    EXPECT_EQ(read_mol_block(butene(-0.75)).inchikey, "IAQRGUVFOMOMEM-ONEGZZNKSA-N");
    EXPECT_EQ(read_mol_block(butene(0.75)).inchikey, "IAQRGUVFOMOMEM-ARJAWSKDSA-N");
    const Structure crossed = read_mol_block(butene(0.75, 3));
    EXPECT_EQ(crossed.inchikey, "IAQRGUVFOMOMEM-UHFFFAOYSA-N");
    EXPECT_EQ(crossed.smiles, read_smiles("CC=CC").smiles);
    EXPECT_TRUE(crossed.has_unassigned_stereo);
}

TEST(MolBlock, WithoutCoordinatesLeavesStereochemistryOpen) {
    const std::string flat = v2000({{"C", 0, 0}, {"C", 0, 0}, {"C", 0, 0}, {"C", 0, 0}},
                                   {{1, 2, 1}, {2, 3, 2}, {3, 4, 1}});
    EXPECT_EQ(read_mol_block(flat).inchikey, "IAQRGUVFOMOMEM-UHFFFAOYSA-N");
    EXPECT_TRUE(read_mol_block(flat).has_unassigned_stereo);
}

/// Bromochlorofluoromethane in space: the two are mirror images.
TEST(MolBlock, TakesCentresFromThreeDimensions) {
    const auto drawn = [](double mirror) {
        return v2000({{"C", 0, 0, 0},
                      {"F", 0, 0, 1.4},
                      {"Cl", 1.6, 0, -0.6},
                      {"Br", -0.9, 1.6 * mirror, -0.6},
                      {"H", -0.5, -0.9 * mirror, -0.4}},
                     {{1, 2, 1}, {1, 3, 1}, {1, 4, 1}, {1, 5, 1}}, {}, "3D");
    };
    const Structure one = read_mol_block(drawn(1));
    const Structure other = read_mol_block(drawn(-1));
    EXPECT_FALSE(one.has_unassigned_stereo);
    EXPECT_NE(one.inchikey, other.inchikey);
    EXPECT_EQ(one.inchikey.substr(0, 14), read_smiles("FC(Cl)Br").inchikey.substr(0, 14));
}

TEST(MolBlock, LeavesRacemicCentresOpen) {
    const Structure absolute = read_mol_block(butanol_v3000(""));
    EXPECT_FALSE(absolute.has_unassigned_stereo);
    for (const char *kind : {"STERAC1", "STEREL1"}) {
        const Structure open = read_mol_block(
            butanol_v3000(fmt::format("M  V30 BEGIN COLLECTION\nM  V30 MDLV30/{} ATOMS=(1 2)\n"
                                      "M  V30 END COLLECTION\n",
                                      kind)));
        EXPECT_TRUE(open.has_unassigned_stereo) << kind;
        EXPECT_EQ(open.inchikey, read_smiles("CC(O)CC").inchikey) << kind;
        EXPECT_EQ(open.smiles, read_smiles("CC(O)CC").smiles) << kind;
    }
}

TEST(MolBlock, ReadsChargesIsotopesAromaticBondsAndSalts) {
    const std::string acetate =
        v2000({{"C", 0, 0}, {"C", 1.3, 0.75}, {"O", 2.6, 0}, {"O", 1.3, 2.25}, {"Na", 6, 0}},
              {{1, 2, 1}, {2, 3, 1}, {2, 4, 2}}, "M  CHG  2   3  -1   5   1\n");
    EXPECT_EQ(read_mol_block(acetate).inchikey, read_smiles("CC(=O)[O-].[Na+]").inchikey);
    EXPECT_EQ(read_mol_block(acetate).parent_inchikey, read_smiles("CC(=O)O").inchikey);

    const std::string heavy =
        v2000({{"C", 0, 0}, {"O", 1.5, 0}}, {{1, 2, 1}}, "M  ISO  1   1  13\n");
    EXPECT_EQ(read_mol_block(heavy).inchikey, read_smiles("[13CH3]O").inchikey);

    const std::string benzene =
        v2000({{"C", 0, 0}, {"C", 1, 0.6}, {"C", 2, 0}, {"C", 2, -1}, {"C", 1, -1.6}, {"C", 0, -1}},
              {{1, 2, 4}, {2, 3, 4}, {3, 4, 4}, {4, 5, 4}, {5, 6, 4}, {6, 1, 4}});
    EXPECT_EQ(read_mol_block(benzene).smiles, read_smiles("c1ccccc1").smiles);
}

TEST(MolBlock, IsRefusedWhereItIsNoMolBlock) {
    expect_refusal("", "it ends before line 4");
    expect_refusal("CCO", "it ends before line 4");
    expect_refusal("a\nb\nc\nd\n", "line 4 names neither V2000 nor V3000");
    std::string block = ethanol();
    expect_refusal(block.substr(0, block.find("M  END")), "the line \"M  END\" is missing");
    expect_refusal(block + "> <name>\nethanol\n", "line 11 stands behind \"M  END\"");
    expect_refusal(v2000({}, {}), "it has no atoms");
    block.replace(block.find("  3  2"), 6, "  9  2"); // more atoms than lines
    expect_refusal(block, "line");
    expect_refusal(v2000({{"C", 0, 0}, {"C", 1, 0}}, {{1, 5, 1}}), "line 7 names atom 5 of 2");
    expect_refusal(v2000({{"Xx", 0, 0}}, {}), "Xx");
}

TEST(MolBlock, IsRefusedWithOpenAtomsAndBonds) {
    for (const char *open : {"A", "Q", "*", "R#", "L"}) {
        expect_refusal(v2000({{open, 0, 0}, {"C", 1.5, 0}}, {{1, 2, 1}}), "an atom is left open");
    }
    for (const int open : {5, 6, 7, 8}) { // single or double, ..., any
        expect_refusal(v2000({{"C", 0, 0}, {"C", 1.5, 0}}, {{1, 2, open}}), "a bond is left open");
    }
}

TEST(MolBlock, IsRefusedWhereItDrawsAPolymer) {
    const std::string polymer = v2000(
        {{"C", 0, 0}, {"C", 1.5, 0}, {"C", 3, 0}, {"C", 4.5, 0}}, {{1, 2, 1}, {2, 3, 1}, {3, 4, 1}},
        "M  STY  1   1 SRU\nM  SAL   1  2   2   3\nM  SBL   1  2   1   3\n"
        "M  SMT   1 n\nM  SDI   1  4    0.7000   -0.7000    0.7000    0.7000\n"
        "M  SDI   1  4    3.7000    0.7000    3.7000   -0.7000\n");
    expect_refusal(polymer, "it draws a polymer or a mixture");
}

TEST(MolBlock, IsRefusedAsAnImpossibleMolecule) {
    expect_refusal(
        v2000({{"C", 0, 0}, {"C", 1, 0}, {"C", -1, 0}, {"C", 0, 1}, {"C", 0, -1}, {"C", 1, 1}},
              {{1, 2, 1}, {1, 3, 1}, {1, 4, 1}, {1, 5, 1}, {1, 6, 1}}),
        "atom 1 (C) has more bonds than its valence allows");
}

TEST(MolBlock, IsRefusedWhereItIsTooLarge) {
    std::vector<Atom> atoms;
    std::vector<Bond> bonds;
    for (int index = 0; index < 501; ++index) {
        atoms.push_back({"C", index * 1.5, 0});
        if (index > 0) {
            bonds.push_back({index, index + 1, 1});
        }
    }
    expect_refusal(v2000(atoms, bonds), "501 heavy atoms");
    expect_refusal(ethanol() + std::string(600'000, ' '), "more than 500000");
}

TEST(MolBlock, IsNamedByItsTitleInTheMessage) {
    EXPECT_EQ(refusal("caffeine\nb\nc\nd\n").rfind("the mol block \"caffeine\" (", 0), 0U);
    EXPECT_EQ(refusal("\nb\nc\nd\n").rfind("a mol block without title (", 0), 0U);
}

TEST(MolBlock, ReadingPrintsNothing) {
    testing::internal::CaptureStderr();
    testing::internal::CaptureStdout();
    static_cast<void>(refusal(v2000({{"C", 0, 0}, {"C", 1, 0}}, {{1, 5, 1}})));
    static_cast<void>(read_mol_block(alanine(4)));
    EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
    EXPECT_EQ(testing::internal::GetCapturedStdout(), "");
}

} // namespace
} // namespace cospot::descriptors
