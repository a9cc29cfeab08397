#include "descriptors/descriptors.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

// Numbers of others for the polar surface and the Crippen descriptors.
namespace cospot::descriptors {
namespace {

struct KnownDescriptors {
    std::string smiles;
    double value;
};

// ertl2000, Table 1, read: fragment contributions to the polar surface; each molecule holds one
// kind of fragment, its number as a factor.
TEST(Descriptors, AddUpThePublishedPolarSurfaceFragments) {
    const std::vector<KnownDescriptors> molecules{
        {"CN(C)C", 3.24},
        {"CNC", 12.03},
        {"CN", 26.02},
        {"CC=N", 23.85},
        {"CC=NC", 12.36},
        {"CC#N", 23.79},
        {"C1CN1", 21.94},
        {"C[N+](C)(C)C", 0.0},
        {"C[NH3+]", 27.64},
        {"C[NH+](C)C", 4.44},
        {"c1ccncc1", 12.89},
        {"c1cc[nH]c1", 15.79},
        {"Cn1cccc1", 4.93},
        {"C[n+]1ccccc1", 3.88},
        {"c1cc[nH+]cc1", 14.14},
        {"COC", 9.23},
        {"C1CO1", 12.53},
        {"CC=O", 17.07},
        {"CO", 20.23},
        {"C[O-]", 23.06},
        {"c1ccoc1", 13.14},
        {"OCC(O)CO", 3 * 20.23},
        {"C[N+](=O)[O-]", 3.01 + 17.07 + 23.06},
        {"CSC", 0.0}, // sulfur does not count
        {"COP(=O)(OC)OC", 3 * 9.23 + 17.07},
    };
    for (const KnownDescriptors &molecule : molecules) {
        EXPECT_NEAR(describe(molecule.smiles).tpsa, molecule.value, 0.005) << molecule.smiles;
    }
}

// Computed with P. Ertl's own program tpsa.c, as printed in the reference set NCI_5K_TPSA.csv of
// the general-purpose library that this module uses.
TEST(Descriptors, HaveThePolarSurfaceOfTheOriginalProgram) {
    const std::vector<KnownDescriptors> molecules{
        {"CC1=CC(=O)C=CC1=O", 34.14},
        {"CN(C)C1=C(Cl)C(=O)C2=C(C=CC=C2)C1=O", 37.38},
        {"CC(C)(C)C1=C(O)C=C(C(=C1)O)C(C)(C)C", 40.46},
        {"CCCCCC[CH]1CCCCN1", 12.03},
        {"CCCCCCCCCCCCCCCC1=C(N)C=CC(=C1)O", 46.25},
        {"CC1=C2C=CC(=NC2=NC(=C1)O)N", 72.03},
        {"C[N+](C)(C)CC1=CC=CC=C1", 0.00},
        {"CC1=CC=C(C=C1)C(=O)C2=CC=C(Cl)C=C2", 17.07},
        {"CC(O)(C1=CC=CC=C1)C2=CC=CC=C2", 20.23},
        {"CC1=CC=CC2=NC=C(C)C(=C12)Cl", 12.89},
        {"COC1=CC=C(CC2=CC=C(OC)C=C2)C=C1", 18.46},
        {"COC1=CC=C(C=C1)C=NO", 41.82},
        {"CCC1=C(N)C=C(C)N=C1", 38.91},
        {"O=S(CC1=CC=CC=C1)CC2=CC=CC=C2", 17.07},
        {"CC(C)(C(N)=O)C1=CC=CC=C1", 43.09},
        {"O=S(=O)(CC1=CC=CC=C1)CC2=CC=CC=C2", 34.14},
        {"N#C[CH](CC1=CC=CC=C1)C2=CC=CC=C2", 23.79},
        {"C[N+](C)(CC1=CC=CC=C1)CC2=CC=CC=C2", 0.00},
        {"NC1=CC=C(Cl)N=C1", 38.91},
        {"CCN(CC)C(=O)C=CC1=CC=CC=C1", 20.31},
        {"COC(N(C)C)(C1=CC=CC=C1)C2=CC=CC=C2", 12.47},
        {"CC1=C(CO)C=CC=C1", 20.23},
        {"CC(C)CC(=O)CC(C)=O", 34.14},
        {"CN(CC1=CC=CC=C1)C2=CC=CC=C2", 3.24},
        {"CC(OC(=O)C1=CC=CC=C1)=CC2=CC=CC=C2", 26.30},
        {"CCCCCCCCN(CC)CC", 3.24},
        {"CCCCOC(OCCCC)C1=CC=CC=C1", 18.46},
        {"CC(=O)C1=CC(=C(O)C(=C1)C)C", 37.30},
        {"CC1=C(C)C(=C(C[N+](C)(C)C)C(=C1)C)C", 0.00},
        {"CN1C2=C(SC3=C1C=CC=C3)C=CC=C2", 3.24},
        {"ClCC(=O)C1=CC2=C(SC3=CC=CC=C3N2)C=C1", 29.10},
        {"O=C1CSC2=C(N1)C=CC=C2", 29.10},
    };
    for (const KnownDescriptors &molecule : molecules) {
        EXPECT_NEAR(describe(molecule.smiles).tpsa, molecule.value, 0.01) << molecule.smiles;
    }
}

// ertl2000, table of drugs with known absorption, one decimal (the first 16), and values that
// pubchem's pages and others print; all from memory.
TEST(Descriptors, HaveThePublishedPolarSurfaceOfDrugs) {
    const std::vector<KnownDescriptors> drugs{
        {"CC(C)NCC(O)COc1ccc(CCOC)cc1", 50.7},                         // metoprolol
        {"O=C1CN=C(c2ccccc2)c2cc(Cl)ccc2N1", 41.5},                    // nordiazepam
        {"CN1C(=O)CN=C(c2ccccc2)c2cc(Cl)ccc21", 32.7},                 // diazepam
        {"CC(C)NCC(O)COc1ccccc1OCC=C", 50.7},                          // oxprenolol
        {"Cc1cc(=O)n(-c2ccccc2)n1C", 26.9},                            // phenazone
        {"O=C1Nc2ccc(Cl)cc2C(c2ccccc2)=NC1O", 61.7},                   // oxazepam
        {"CC(C)NCC(O)COc1ccccc1CC=C", 41.5},                           // alprenolol
        {"CC(C)NCC(O)COc1ccc(NC(C)=O)cc1", 70.6},                      // practolol
        {"CC(C)NCC(O)COc1cccc2[nH]ccc12", 57.3},                       // pindolol
        {"O=C(O)c1cn(C2CC2)c2cc(N3CCNCC3)c(F)cc2c1=O", 74.6},          // ciprofloxacin
        {"NC[C@H]1CC[C@H](C(=O)O)CC1", 63.3},                          // tranexamic acid
        {"CC(C)NCC(O)COc1ccc(CC(N)=O)cc1", 84.6},                      // atenolol
        {"CCN1CCCC1CNC(=O)c1cc(S(N)(=O)=O)ccc1OC", 101.7},             // sulpiride
        {"OC[C@@H](O)[C@@H](O)[C@H](O)[C@H](O)CO", 121.4},             // mannitol
        {"O=C(O)c1cc(/N=N/c2ccc(S(=O)(=O)Nc3ccccn3)cc2)ccc1O", 141.3}, // sulfasalazine
        {"O=C(O)c1cc(/N=N/c2ccc(O)c(C(=O)O)c2)ccc1O", 139.8},          // olsalazine
        {"CC(=O)Oc1ccccc1C(=O)O", 63.6},                               // aspirin
        {"CC(=O)Nc1ccc(O)cc1", 49.3},                                  // paracetamol
        {"Cn1c(=O)c2c(ncn2C)n(C)c1=O", 61.8},                          // caffeine
        {"CC(C)Cc1ccc(C(C)C(=O)O)cc1", 37.3},                          // ibuprofen
        {"CCC1(c2ccccc2)C(=O)NC(=O)NC1=O", 75.3},                      // phenobarbital
        {"CN1CCCC1c1cccnc1", 16.1},                                    // nicotine
        {"COc1cc(C=O)ccc1O", 46.5},                                    // vanillin
        {"OC[C@@H](O)[C@@H](O)[C@H](O)[C@@H](O)C=O", 118.2},           // glucose (open chain)
    };
    for (const KnownDescriptors &drug : drugs) {
        EXPECT_NEAR(describe(drug.smiles).tpsa, drug.value, 0.051) << drug.smiles;
    }
}

TEST(Descriptors, ReadBothSpellingsOfANitroGroupAlike) {
    EXPECT_DOUBLE_EQ(describe("CN(=O)=O").tpsa, describe("C[N+](=O)[O-]").tpsa);
}

struct Crippen {
    std::string smiles;
    double logp;
    double molar_refractivity;
};

// wildman1999, read in the reference set of the implementation that this module uses (its file
// Crippen.csv). Methane and isobutane also follow by hand from Table 1 of the paper: C1 0.1441 + 4
// H1 0.1230; C2 0 + 3 C1 + 10 H1.
TEST(Descriptors, HaveTheReferenceLogPAndRefractivity) {
    const std::vector<Crippen> molecules{
        {"C", 0.6361, 6.7310},           {"C=C", 0.8022, 11.2540},
        {"C#C", 0.2494, 9.8900},         {"CO", -0.3915, 8.1428},
        {"C=O", -0.1849, 7.1210},        {"C#[O+]", 0.0059, 5.6315},
        {"C(C)(C)(C)", 1.6623, 20.5120}, {"C(C)(C)(C)O", 0.7772, 21.9718},
    };
    for (const Crippen &molecule : molecules) {
        const Descriptors result = describe(molecule.smiles);
        EXPECT_NEAR(result.crippen_logp, molecule.logp, 0.001) << molecule.smiles;
        EXPECT_NEAR(result.crippen_molar_refractivity, molecule.molar_refractivity, 0.001)
            << molecule.smiles;
    }
}

// crc, read: measured octanol-water log P. The published standard error of the method is 0.68
// (wildman1999, from memory).
TEST(Descriptors, PredictTheMeasuredLogPOfSolventsToWithinThePublishedError) {
    const std::vector<KnownDescriptors> solvents{
        {"CCCCC", 3.45},                 // pentane
        {"CCCCCC", 4},                   // hexane
        {"CCCCCCCCCC", 6.25},            // decane
        {"C1CCCCC1", 3.44},              // cyclohexane
        {"c1ccccc1", 2.13},              // benzene
        {"Cc1ccccc1", 2.73},             // toluene
        {"c1ccc2ccccc2c1", 3.34},        // naphthalene
        {"ClCCl", 1.25},                 // dichloromethane
        {"ClC(Cl)Cl", 1.97},             // chloroform
        {"Clc1ccccc1", 2.84},            // chlorobenzene
        {"Brc1ccccc1", 2.99},            // bromobenzene
        {"CO", -0.74},                   // methanol
        {"CCO", -0.3},                   // ethanol
        {"CCCCO", 0.84},                 // 1-butanol
        {"CCCCCCCCO", 3.07},             // 1-octanol
        {"OC1CCCCC1", 1.23},             // cyclohexanol
        {"Oc1ccccc1", 1.48},             // phenol
        {"CCOCC", 0.89},                 // diethyl ether
        {"C1CCOC1", 0.46},               // tetrahydrofuran
        {"COc1ccccc1", 2.11},            // anisole
        {"CC(C)=O", -0.24},              // acetone
        {"CCCC(C)=O", 0.84},             // 2-pentanone
        {"CC(=O)c1ccccc1", 1.63},        // acetophenone
        {"O=C(c1ccccc1)c1ccccc1", 3.18}, // benzophenone
        {"O=Cc1ccccc1", 1.48},           // benzaldehyde
        {"CCOC(C)=O", 0.73},             // ethyl acetate
        {"CCCCOC(C)=O", 1.82},           // butyl acetate
        {"COC(=O)c1ccccc1", 2.2},        // methyl benzoate
        {"CC(=O)O", -0.17},              // acetic acid
        {"O=C(O)c1ccccc1", 1.88},        // benzoic acid
        {"Nc1ccccc1", 0.9},              // aniline
        {"CCN(CC)CC", 1.45},             // triethylamine
        {"c1ccncc1", 0.65},              // pyridine
        {"c1ccc2ncccc2c1", 2.03},        // quinoline
        {"CC#N", -0.34},                 // acetonitrile
        {"O=[N+]([O-])c1ccccc1", 1.85},  // nitrobenzene
        {"CN(C)C=O", -1.01},             // N,N-dimethylformamide
        {"CS(C)=O", -1.35},              // dimethyl sulfoxide
        {"c1ccsc1", 1.81},               // thiophene
        {"c1ccc2[nH]ccc2c1", 2.14},      // indole
        {"CC(N)=O", -1.26},              // acetamide
        {"CCNCC", 0.58},                 // diethylamine
    };
    double squares = 0.0;
    for (const KnownDescriptors &solvent : solvents) {
        const double deviation = describe(solvent.smiles).crippen_logp - solvent.value;
        EXPECT_LT(std::abs(deviation), 2.2) << solvent.smiles;
        squares += deviation * deviation;
    }
    EXPECT_LT(std::sqrt(squares / static_cast<double>(solvents.size())), 0.75);
}

} // namespace
} // namespace cospot::descriptors
