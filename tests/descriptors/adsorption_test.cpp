#include "descriptors/adsorption.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

namespace cospot::descriptors {
namespace {

double energy(const std::string &smiles) {
    return silica_adsorption(smiles).energy;
}

void expect_rising(const std::vector<std::string> &smiles) {
    for (std::size_t next = 1; next < smiles.size(); ++next) {
        EXPECT_LT(energy(smiles[next - 1]), energy(smiles[next]))
            << smiles[next - 1] << " before " << smiles[next];
    }
}

// snyder1968, from memory and of low confidence: group energies on silica. One group on a skeleton
// adds up by hand.
TEST(SilicaAdsorption, OfOneGroupIsItsEnergyAndTheSkeleton) {
    EXPECT_NEAR(energy("c1ccccc1"), 6 * 0.25, 1e-9);
    EXPECT_NEAR(energy("COc1ccccc1"), 6 * 0.25 - 0.05 + 1.83, 1e-9);
    EXPECT_NEAR(energy("CCCCO"), 5.60 - 4 * 0.05, 1e-9);
    EXPECT_NEAR(energy("O=[N+]([O-])c1ccccc1"), 6 * 0.25 + 2.77, 1e-9);
    EXPECT_NEAR(energy("Clc1ccccc1"), 6 * 0.25 - 0.20, 1e-9);
    EXPECT_NEAR(energy("CC(=O)OCC"), 5.27 - 3 * 0.05, 1e-9);
    EXPECT_NEAR(energy("COC(=O)c1ccccc1"), 6 * 0.25 - 0.05 + 4.18, 1e-9);
}

TEST(SilicaAdsorption, CountsTheStrongestGroupInFullAndHalfOfTheOthers) {
    const SilicaAdsorption both = silica_adsorption("COc1ccc(cc1)C(=O)O");
    EXPECT_NEAR(both.energy, 6 * 0.25 - 0.05 + 6.1 + 0.5 * 1.83, 1e-9);
    EXPECT_EQ(both.strongest_group, "aromatic_acid");
    const SilicaAdsorption twice = silica_adsorption("OCCO");
    EXPECT_NEAR(twice.energy, -2 * 0.05 + 5.60 + 0.5 * 5.60, 1e-9);
    ASSERT_EQ(twice.groups.size(), 2U);
    EXPECT_EQ(twice.groups[1].group, "aliphatic_hydroxy");
    EXPECT_EQ(twice.groups[1].count, 2);
    EXPECT_DOUBLE_EQ(twice.groups[1].energy, 5.60);
    EXPECT_EQ(silica_adsorption("CCCCCC").strongest_group, "");
    EXPECT_EQ(silica_adsorption("Clc1ccccc1").strongest_group, "");
}

// snyder1968, order from memory: alkyl < halogen < ether < nitro < carbonyl < hydroxy < acid, and
// amine < amide.
TEST(SilicaAdsorption, RisesFromAlkaneToAmide) {
    expect_rising(
        {"CCCCCC", "CCCCCCl", "CCCOCC", "CCCC(C)=O", "CCCCCO", "CCCCC(=O)O", "CCCCC(N)=O"});
    expect_rising({"CCCCCC", "c1ccccc1", "COc1ccccc1", "O=[N+]([O-])c1ccccc1", "O=Cc1ccccc1",
                   "CC(=O)c1ccccc1", "Nc1ccccc1", "OC(=O)c1ccccc1", "NC(=O)c1ccccc1"});
}

// Common practice, no source: which of two spots runs higher on silica.
TEST(SilicaAdsorption, OrdersFamiliarPairs) {
    expect_rising({"Oc1ccccc1[N+](=O)[O-]", "Oc1ccc(cc1)[N+](=O)[O-]"}); // internal hydrogen bond
    expect_rising({"O=Cc1ccccc1O", "O=Cc1ccc(O)cc1"});
    expect_rising({"c1ccc2ccccc2c1", "O=C(c1ccccc1)c1ccccc1", "OC(c1ccccc1)c1ccccc1"});
    expect_rising({"CC(=O)OCc1ccccc1", "OCc1ccccc1"}); // an alcohol and its acetate
    expect_rising({"OCc1ccccc1", "OCc1ccc(CO)cc1"});
    expect_rising({"CC(=O)Nc1ccccc1", "CC(=O)Nc1ccc(O)cc1"});
}

TEST(SilicaAdsorption, SaysWhatItGuessedOrLeftOut) {
    EXPECT_FALSE(silica_adsorption("CC(=O)c1ccccc1").uses_analogy);
    const SilicaAdsorption pyridine = silica_adsorption("c1ccncc1");
    EXPECT_TRUE(pyridine.uses_analogy);
    EXPECT_EQ(pyridine.heteroatoms_left_out, 0);
    const auto guessed =
        std::find_if(pyridine.groups.begin(), pyridine.groups.end(),
                     [](const GroupAdsorption &group) { return group.by_analogy; });
    ASSERT_NE(guessed, pyridine.groups.end());
    EXPECT_EQ(guessed->group, "pyridine_nitrogen");
    EXPECT_EQ(silica_adsorption("C[Si](C)(C)C").heteroatoms_left_out, 1);
    EXPECT_EQ(silica_adsorption("[Na+].[Cl-]").heteroatoms_left_out, 2);
    EXPECT_EQ(silica_adsorption("CN1CCCC1c1cccnc1").heteroatoms_left_out, 0);
    EXPECT_EQ(silica_adsorption("NS(=O)(=O)c1ccc(N)cc1").heteroatoms_left_out, 0);
}

TEST(SilicaAdsorption, CountsEachGroupOnce) {
    for (const char *smiles : {"CO",
                               "COC",
                               "CC=O",
                               "CC(C)=O",
                               "CC(=O)OC",
                               "CC(=O)O",
                               "CN",
                               "CNC",
                               "CN(C)C",
                               "CC(N)=O",
                               "CN(C)C=O",
                               "CC#N",
                               "C[N+](=O)[O-]",
                               "CSC",
                               "CS(C)=O",
                               "CS(C)(=O)=O",
                               "CCl",
                               "Nc1ccccc1",
                               "Oc1ccccc1",
                               "O=Cc1ccccc1",
                               "CC(=O)c1ccccc1",
                               "COC(=O)c1ccccc1",
                               "N#Cc1ccccc1",
                               "OC(=O)c1ccccc1",
                               "CC(=O)Oc1ccccc1",
                               "c1ccc(cc1)Oc1ccccc1",
                               "c1cc[nH]c1",
                               "NC(N)=O",
                               "C[N+](C)(C)[O-]",
                               "O=C1CCCO1",
                               "CC(=O)C=C",
                               "O=CC=C",
                               "COC=O"}) {
        int polar = 0;
        for (const GroupAdsorption &group : silica_adsorption(smiles).groups) {
            polar += group.energy > 0.4 ? group.count : 0;
        }
        EXPECT_EQ(polar, 1) << smiles;
        EXPECT_EQ(silica_adsorption(smiles).heteroatoms_left_out, 0) << smiles;
    }
}

TEST(SilicaAdsorption, RefusesWhatIsNoStructure) {
    EXPECT_THROW(static_cast<void>(silica_adsorption("C*")), InputError);
}

TEST(Hydrophobicity, ShowsLogPAndPolarSurface) {
    const Descriptors described = describe("Oc1ccccc1");
    EXPECT_DOUBLE_EQ(hydrophobicity(described).crippen_logp, described.crippen_logp);
    EXPECT_DOUBLE_EQ(hydrophobicity(described).tpsa, 20.23);
    // Reversed-phase order of the alkyl benzenes and of benzene before toluene: common practice, no
    // source.
    EXPECT_LT(hydrophobicity(describe("c1ccccc1")).crippen_logp,
              hydrophobicity(describe("Cc1ccccc1")).crippen_logp);
}

} // namespace
} // namespace cospot::descriptors
