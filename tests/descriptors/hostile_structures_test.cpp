// Structures that would take a reader's time or memory: each is refused by a limit that the message
// names, or is within all limits and read.
#include "descriptors/descriptors.h"
#include "descriptors/structure.h"

#include "shared/error.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace cospot::descriptors {
namespace {

template <typename Read> std::string refusal_by(const Read &read, const std::string &text) {
    try {
        static_cast<void>(read(text));
    } catch (const InputError &error) {
        EXPECT_FALSE(error.expected().empty());
        return error.found();
    }
    return "not refused";
}

void expect_smiles_refusal(const std::string &smiles, const std::string &reason) {
    const std::string found = refusal_by(read_smiles, smiles);
    EXPECT_NE(found.find(reason), std::string::npos) << found;
    EXPECT_LT(found.size(), 300U); // the text is not quoted at full length
}

void expect_block_refusal(const std::string &block, const std::string &reason) {
    const std::string found = refusal_by(read_mol_block, block);
    EXPECT_NE(found.find(reason), std::string::npos) << found;
}

std::string repeated(const std::string &text, int times) {
    std::string result;
    for (int i = 0; i < times; ++i) {
        result += text;
    }
    return result;
}

using Bonds = std::vector<std::pair<int, int>>;

/// A V3000 block of one element; atoms count from 0.
std::string block_of(const std::string &element, int atoms, const Bonds &bonds,
                     const std::string &property = "") {
    std::string block = "invented\n\n\n  0  0  0     0  0            999 V3000\n"
                        "M  V30 BEGIN CTAB\n";
    block += fmt::format("M  V30 COUNTS {} {} 0 0 0\nM  V30 BEGIN ATOM\n", atoms, bonds.size());
    for (int atom = 0; atom < atoms; ++atom) {
        block += fmt::format("M  V30 {} {} {} 0 0 0{}\n", atom + 1, element, atom, property);
    }
    block += "M  V30 END ATOM\nM  V30 BEGIN BOND\n";
    for (std::size_t bond = 0; bond < bonds.size(); ++bond) {
        block += fmt::format("M  V30 {} 1 {} {}\n", bond + 1, bonds[bond].first + 1,
                             bonds[bond].second + 1);
    }
    return block + "M  V30 END BOND\nM  V30 END CTAB\nM  END\n";
}

/// Each atom bound to each other one.
Bonds all_pairs(int atoms) {
    Bonds bonds;
    for (int a = 0; a < atoms; ++a) {
        for (int b = 0; b < a; ++b) {
            bonds.emplace_back(a, b);
        }
    }
    return bonds;
}

Bonds chain(int atoms) {
    Bonds bonds;
    for (int atom = 1; atom < atoms; ++atom) {
        bonds.emplace_back(atom - 1, atom);
    }
    return bonds;
}

std::string ring_bond(int number) {
    return number < 10 ? fmt::format("{}", number) : fmt::format("%{}", number);
}

/// Fifteen atoms, each bound to each other one.
std::string dense_smiles() {
    constexpr int atoms = 15;
    std::string smiles;
    int rings = 0;
    std::vector<std::string> closing(atoms); // ring bonds that end at an atom
    for (int atom = 0; atom < atoms; ++atom) {
        smiles += "[U]" + closing[static_cast<std::size_t>(atom)];
        for (int other = atom + 2; other < atoms; ++other) {
            const std::string ring = ring_bond(++rings);
            smiles += ring;
            closing[static_cast<std::size_t>(other)] += ring;
        }
    }
    return smiles;
}

TEST(HostileSmiles, AMegabyteIsRefused) {
    expect_smiles_refusal(std::string(1'000'000, 'C'), "it has 1000000 characters, more than 2000");
}

TEST(HostileSmiles, NestedBranchesAndRingsAreBoundedByTheLength) {
    expect_smiles_refusal(repeated("C(", 10'000) + "C" + repeated(")", 10'000), "more than 2000");
    expect_smiles_refusal(repeated("C1CC", 10'000), "more than 2000");
    expect_smiles_refusal("C" + std::string(1900, '('), "is never closed");
    EXPECT_EQ(read_smiles(repeated("C(", 400) + "C" + repeated(")", 400)).formula, "C401H804");
    EXPECT_EQ(read_smiles(repeated("C1CCCCC1", 60)).formula, "C360H602");
}

TEST(HostileSmiles, FragmentsAreBoundedByTheirAtoms) {
    expect_smiles_refusal(repeated("C.", 999) + "C", "it has 1000 heavy atoms, more than 500");
    EXPECT_EQ(read_smiles(repeated("[Na+].", 150) + repeated("[Cl-].", 149) + "[Cl-]").formula,
              "Cl150Na150");
}

TEST(HostileSmiles, DotsAloneAreNoCompound) {
    for (const int count : {1, 2, 2000}) {
        expect_smiles_refusal(std::string(static_cast<std::size_t>(count), '.'), "the order of");
    }
}

TEST(HostileSmiles, IsotopesAreBounded) {
    for (const char *isotope : {"[99999999999999999999CH4]", "[4294967308CH4]", "[401CH4]"}) {
        expect_smiles_refusal(isotope, "no atom has the number");
    }
}

TEST(HostileSmiles, ManyStereocentresAreRead) {
    EXPECT_TRUE(read_smiles("C" + repeated("C(F)", 200) + "Cl").has_unassigned_stereo);
    EXPECT_EQ(read_smiles("C" + repeated("[C@H](F)", 200) + "Cl").formula, "C201H203ClF200");
    EXPECT_TRUE(read_smiles("C" + repeated("C=CC", 100)).has_unassigned_stereo);
}

TEST(HostileSmiles, DenselyBoundAtomsAreRefused) {
    // 15 atoms: 105 bonds with 13 further neighbours at either end.
    const std::string expected = "it has 17745 chains of four atoms, more than 15000";
    expect_smiles_refusal(dense_smiles(), expected);
    EXPECT_NE(refusal_by(describe, dense_smiles()).find(expected), std::string::npos);
}

TEST(HostileSmiles, FullereneIsRead) { // the densest of the carbons that a laboratory has
    EXPECT_EQ(read_smiles("c12c3c4c5c1c1c6c7c2c2c8c3c3c9c4c4c%10c5c5c1c1c6c6c%11c7c2c2c7c8c3c3c8c9"
                          "c4c4c9c%10c5c5c1c1c6c6c%11c2c2c7c3c3c8c4c4c9c5c1c1c6c2c3c41")
                  .formula,
              "C60");
}

TEST(HostileMolBlock, DenselyBoundAtomsAreRefused) {
    expect_block_refusal(block_of("U", 150, all_pairs(150)), "chains of four atoms, more than");
}

TEST(HostileMolBlock, HydrogensAreBounded) {
    expect_block_refusal(block_of("H", 5000, {}), "it has 5000 atoms, more than 2000");
}

TEST(HostileMolBlock, IsRefusedWhereItsSmilesCouldNotBeReadAgain) {
    expect_block_refusal(block_of("C", 400, chain(400), " MASS=13"),
                         "its SMILES has 2800 characters, more than 2000");
    EXPECT_EQ(read_mol_block(block_of("C", 400, chain(400))).formula, "C400H802");
}

} // namespace
} // namespace cospot::descriptors
