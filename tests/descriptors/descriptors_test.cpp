#include "descriptors/descriptors.h"

#include "descriptors/structure.h"
#include "shared/error.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <thread>
#include <vector>

namespace cospot::descriptors {
namespace {

struct Known {
    std::string smiles;
    double value;
};

struct Counts {
    std::string smiles;
    int donors;
    int acceptors;
    int rotatable_bonds;
    int rings;
    int aromatic_rings;
    int heavy_atoms;
    int stereocentres;
};

// By the definitions of lipinski1997 (donors, acceptors; from memory) and by counting in the
// formulas of aspirin, paracetamol, caffeine, menthol, cholesterol, ibuprofen.
TEST(Descriptors, CountWhatAChemistCounts) {
    const std::vector<Counts> compounds{
        {"CC(=O)Oc1ccccc1C(=O)O", 1, 4, 2, 1, 1, 13, 0},
        {"CC(=O)Nc1ccc(O)cc1", 2, 3, 1, 1, 1, 11, 0},
        {"Cn1cnc2c1c(=O)n(C)c(=O)n2C", 0, 6, 0, 2, 2, 14, 0},
        {"CC(C)[C@@H]1CC[C@@H](C)C[C@H]1O", 1, 1, 1, 1, 0, 11, 3},
        {"CC(C)CCCC(C)C1CCC2C1(CCC3C2CC=C4C3(CCC(C4)O)C)C", 1, 1, 5, 4, 0, 28, 8},
        {"CC(C)Cc1ccc(C(C)C(=O)O)cc1", 1, 2, 4, 1, 1, 15, 1},
        {"O", 2, 1, 0, 0, 0, 1, 0},
        {"NC(=O)c1ccccc1", 2, 2, 1, 1, 1, 9, 0},
    };
    for (const Counts &known : compounds) {
        const Descriptors result = describe(known.smiles);
        EXPECT_EQ(result.hydrogen_bond_donors, known.donors) << known.smiles;
        EXPECT_EQ(result.hydrogen_bond_acceptors, known.acceptors) << known.smiles;
        EXPECT_EQ(result.rotatable_bonds, known.rotatable_bonds) << known.smiles;
        EXPECT_EQ(result.rings, known.rings) << known.smiles;
        EXPECT_EQ(result.aromatic_rings, known.aromatic_rings) << known.smiles;
        EXPECT_EQ(result.heavy_atoms, known.heavy_atoms) << known.smiles;
        EXPECT_EQ(result.stereocentres, known.stereocentres) << known.smiles;
    }
    EXPECT_DOUBLE_EQ(describe("CCc1ccccc1").fraction_sp3, 0.25);
    EXPECT_EQ(describe("FC(F)(F)c1ccc(Br)c(I)c1Cl").halogens, 6);
    EXPECT_EQ(describe("C[N+](C)(C)C").formal_charge, 1);
    EXPECT_EQ(describe("[Na+].[O-]C(=O)c1ccccc1").formal_charge, 0);
}

// wiener1947, recomputed by hand from the definition.
TEST(Descriptors, HaveTheKnownWienerIndex) {
    for (const Known &known : std::vector<Known>{{"C", 0},
                                                 {"CCC", 4},
                                                 {"CCCC", 10},
                                                 {"CC(C)C", 9},
                                                 {"CCCCCC", 35},
                                                 {"CC(C)(C)CC", 28},
                                                 {"C1CCCCC1", 27},
                                                 {"c1ccccc1", 27},
                                                 {"CCC.CCC", 8}}) {
        EXPECT_DOUBLE_EQ(describe(known.smiles).wiener_index, known.value) << known.smiles;
    }
}

// balaban1982, recomputed from the formula and weights of bonds that were read; benzene: six
// distance sums of 9/1.5 = 6, J = 6/2 * 6/6.
TEST(Descriptors, HaveTheKnownBalabanIndex) {
    for (const Known &known : std::vector<Known>{{"C", 0},
                                                 {"CC", 1.0},
                                                 {"CCC", 1.6330},
                                                 {"CCCC", 1.9747},
                                                 {"CC(C)C", 2.3238},
                                                 {"CCCCC", 2.1906},
                                                 {"CC(C)CC", 2.5395},
                                                 {"CC(C)(C)C", 3.0237},
                                                 {"c1ccccc1", 3.0},
                                                 {"CC.CCC", 2.6330}}) {
        EXPECT_NEAR(describe(known.smiles).balaban_j, known.value, 0.0001) << known.smiles;
    }
}

// kier1986, recomputed from the definition: chi1v of isopentane 2.270, of ethanol 1/sqrt(2) +
// 1/sqrt(10) = 1.023.
TEST(Descriptors, HaveTheKnownConnectivity) {
    EXPECT_NEAR(describe("CC(C)CC").chi1v, 2.270, 0.0005);
    EXPECT_NEAR(describe("CCO").chi1v, 1.0233, 0.0001);
    EXPECT_NEAR(describe("CCCCCC").chi0v, 2 + 4 / std::sqrt(2.0), 1e-9);
    EXPECT_NEAR(describe("CCC").chi2v, 1 / std::sqrt(2.0), 1e-9);
    EXPECT_NEAR(describe("CCCC").chi3v, 0.5, 1e-9);
    EXPECT_DOUBLE_EQ(describe("CCC").chi3v, 0.0);
}

// kier1985, recomputed by (A-1)(A-2)^2/P^2: kappa2 of hexane, 2-methylpentane and
// 2,2-dimethylbutane.
TEST(Descriptors, HaveTheKnownShape) {
    EXPECT_NEAR(describe("CCCCCC").kappa1, 6.0, 1e-9);
    EXPECT_NEAR(describe("CCCCCC").kappa2, 5.0, 1e-9);
    EXPECT_NEAR(describe("CC(C)CCC").kappa2, 3.2, 1e-9);
    EXPECT_NEAR(describe("CC(C)(C)CC").kappa2, 1.6327, 0.0001);
    EXPECT_NEAR(describe("CCCCCC").kier_flexibility, 5.0, 1e-9); // kappa1 kappa2 / A
    EXPECT_DOUBLE_EQ(describe("CCCCCC").hall_kier_alpha, 0.0);
    EXPECT_NEAR(describe("c1ccccc1").hall_kier_alpha, -0.78, 1e-9); // six aromatic carbons, -0.13
}

/// The surface grows by the same amount with each CH2 of a chain.
TEST(Descriptors, HaveASurfaceThatGrowsWithTheChain) {
    const auto surface = [](int carbons) {
        return describe(std::string(static_cast<std::size_t>(carbons), 'C')).labute_surface;
    };
    const double step = surface(7) - surface(6);
    EXPECT_NEAR(surface(12) - surface(6), 6 * step, 1e-6);
    EXPECT_GT(step, 5.0);
    EXPECT_LT(step, 8.0);
}

/// But for the last digit, which depends on the order of the atoms.
void expect_alike(const std::string &one, const std::string &other) {
    const std::vector<double> first = as_vector(describe(one));
    const std::vector<double> second = as_vector(describe(other));
    for (std::size_t index = 0; index < first.size(); ++index) {
        EXPECT_NEAR(first[index], second[index], 1e-9) << one << ' ' << descriptor_names()[index];
    }
}

TEST(Descriptors, OfASaltsParentEqualThoseOfTheFreeBase) {
    const char *const salt = "C[NH2+][C@@H](C)[C@H](O)c1ccccc1.[Cl-]";
    const std::string parent = read_smiles(salt).parent_smiles;
    EXPECT_EQ(read_smiles(parent_smiles(salt)).smiles, parent);
    EXPECT_EQ(as_vector(describe_parent(salt)), as_vector(describe(parent)));
    expect_alike(parent, "CN[C@@H](C)[C@H](O)c1ccccc1");
    EXPECT_EQ(read_smiles("OCC").parent_smiles, read_smiles("CCO").smiles);
    EXPECT_EQ(read_smiles("[Na+].[Cl-]").parent_smiles, read_smiles("[Na+].[Cl-]").smiles);
}

TEST(Descriptors, HaveOneNameForEachNumber) {
    const std::vector<std::string> &names = descriptor_names();
    const Descriptors benzene = describe("c1ccccc1");
    const std::vector<double> values = as_vector(benzene);
    ASSERT_EQ(values.size(), names.size());
    EXPECT_EQ(std::set<std::string>(names.begin(), names.end()).size(), names.size());
    const auto value_of = [&](const std::string &name) {
        const auto found = std::find(names.begin(), names.end(), name);
        return found == names.end() ? std::nan("")
                                    : values[static_cast<std::size_t>(found - names.begin())];
    };
    EXPECT_DOUBLE_EQ(value_of("crippen_logp"), benzene.crippen_logp);
    EXPECT_DOUBLE_EQ(value_of("labute_surface"), benzene.labute_surface);
    EXPECT_DOUBLE_EQ(value_of("heavy_atoms"), 6.0);
    EXPECT_DOUBLE_EQ(value_of("kier_flexibility"), benzene.kier_flexibility);
    EXPECT_DOUBLE_EQ(value_of("group_benzene_ring"), 1.0);
    EXPECT_DOUBLE_EQ(value_of("group_phenol"), 0.0);
    EXPECT_EQ(as_vector({}), std::vector<double>(names.size(), 0.0));
}

TEST(Descriptors, AreFiniteAtTheEdges) {
    for (const char *smiles :
         {"[H][H]", "[H+]", "[Na+].[Cl-]", "C", "O", "[He]", "[Fe]", "[U]", "C[Si](C)(C)C",
          "[O-][Cl+3]([O-])([O-])[O-]", "C#[O+]", "CC", "B", "FS(F)(F)(F)(F)F", "ClI"}) {
        for (const double value : as_vector(describe(smiles))) {
            EXPECT_TRUE(std::isfinite(value)) << smiles;
        }
    }
    const Descriptors largest = describe(std::string(500, 'C'));
    EXPECT_EQ(largest.heavy_atoms, 500);
    EXPECT_THROW(static_cast<void>(describe("C*C")), InputError);
    EXPECT_THROW(static_cast<void>(describe("")), InputError);
}

TEST(Descriptors, AreTheSameHoweverTheStructureIsWritten) {
    expect_alike("OC(=O)c1ccccc1O", "C1(O)=CC=CC=C1C(O)=O");
    expect_alike("[H]OCC", "C(O)C");
}

TEST(Descriptors, AreComputedAlikeByTwoThreadsAtOnce) {
    const std::vector<std::string> texts{"Cn1cnc2c1c(=O)n(C)c(=O)n2C", "CC(=O)Oc1ccccc1C(=O)O",
                                         "CC(C)[C@@H]1CC[C@@H](C)C[C@H]1O", "CN1CCCC1c1cccnc1"};
    std::vector<std::vector<double>> expected;
    for (const std::string &text : texts) {
        expected.push_back(as_vector(describe(text)));
    }
    const auto differences = [&](int &count) {
        for (std::size_t turn = 0; turn < 400; ++turn) {
            const std::size_t which = turn % texts.size();
            count += as_vector(describe(texts[which])) != expected[which] ? 1 : 0;
        }
    };
    int first = 0;
    int second = 0;
    std::thread other([&] { differences(second); });
    differences(first);
    other.join();
    EXPECT_EQ(first, 0);
    EXPECT_EQ(second, 0);
}

} // namespace
} // namespace cospot::descriptors
