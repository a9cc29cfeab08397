#include "descriptors/structure.h"

#include <gtest/gtest.h>

#include <string>
#include <utility>
#include <vector>

namespace cospot::descriptors {
namespace {

using Pairs = std::vector<std::pair<std::string, std::string>>;

bool share_inchikey(const std::string &one, const std::string &other) {
    return read_smiles(one).inchikey.substr(0, 14) == read_smiles(other).inchikey.substr(0, 14);
}

bool share_tautomer(const std::string &one, const std::string &other) {
    return read_smiles(one).tautomer == read_smiles(other).tautomer;
}

// Textbook pairs; which of them the standard InChI merges: heller2015, section on mobile hydrogens,
// from memory.
TEST(Tautomer, IsSharedWhereTheInchiKeyIsShared) {
    const Pairs pairs{
        {"Oc1ccccn1", "O=c1cccc[nH]1"},                           // 2-pyridone
        {"Oc1ccncc1", "O=c1cc[nH]cc1"},                           // 4-pyridone
        {"Cc1c[nH]cn1", "Cc1cnc[nH]1"},                           // 4-methylimidazole
        {"CNC(=N)N", "CN=C(N)N"},                                 // a guanidine
        {"CC(=O)N", "CC(O)=N"},                                   // an amide
        {"O=c1[nH]c(=O)cc[nH]1", "Oc1nc(O)ccn1"},                 // uracil
        {"Nc1nc2[nH]cnc2c(=O)[nH]1", "Nc1nc2nc[nH]c2c(=O)[nH]1"}, // guanine
        {"S=c1cccc[nH]1", "Sc1ccccn1"},                           // a thione
        {"c1ccc2[nH]nnc2c1", "c1ccc2n[nH]nc2c1"},                 // benzotriazole
        {"CN1C=NC2=C1C(=O)NC(=O)N2", "CN1C=NC2=C1C(O)=NC(=O)N2"}, // a xanthine
    };
    for (const auto &[one, other] : pairs) {
        EXPECT_TRUE(share_inchikey(one, other)) << one;
        EXPECT_TRUE(share_tautomer(one, other)) << one;
    }
}

TEST(Tautomer, IsSharedByFormsThatTheInchiKeyTellsApart) {
    const Pairs pairs{
        {"CC(=O)CC(C)=O", "CC(=O)C=C(C)O"},                 // pentane-2,4-dione
        {"CCOC(=O)CC(C)=O", "CCOC(=O)C=C(C)O"},             // ethyl acetoacetate
        {"O=C1CC(=O)CCC1", "O=C1C=C(O)CCC1"},               // cyclohexane-1,3-dione
        {"O=C1CCCCC1", "OC1=CCCCC1"},                       // cyclohexanone
        {"CC1CCC(C(C)C)C(=O)C1", "CC1CCC(C(C)C)=C(O)C1"},   // menthone
        {"Oc1cccc2ccccc12", "O=C1CC=Cc2ccccc12"},           // 1-naphthol
        {"O=C1C=C(C)NN1c1ccccc1", "O=C1CC(C)=NN1c1ccccc1"}, // a pyrazolone
        {"CC(=O)C=NNc1ccccc1", "CC(O)=CN=Nc1ccccc1"},       // hydrazone and azo form
        {"O=C1C(=NNc2ccccc2)C=Cc2ccccc12", "Oc1c(N=Nc2ccccc2)ccc2ccccc12"}, // a naphthol azo dye
    };
    for (const auto &[one, other] : pairs) {
        EXPECT_FALSE(share_inchikey(one, other)) << one;
        EXPECT_TRUE(share_tautomer(one, other)) << one;
    }
}

TEST(Tautomer, IsNotSharedByIsomersThatAreNoTautomers) {
    const Pairs pairs{
        {"C=CCO", "CCC=O"},                           // allyl alcohol, propanal
        {"CCC(=O)C", "CC(C)C=O"},                     // butanone, 2-methylpropanal
        {"CCCC(=O)C", "CCC(=O)CC"},                   // pentan-2-one, pentan-3-one
        {"OC1CCCC=C1", "O=C1CCCCC1"},                 // cyclohex-2-enol, cyclohexanone
        {"CC1=CCC(CC1)C(C)=C", "CC1=CCC(CC1)=C(C)C"}, // limonene, terpinolene
        {"CC(=O)OCC", "CCC(=O)OC"},                   // ethyl acetate, methyl propanoate
        {"Oc1ccccc1C", "Oc1cccc(C)c1"},               // o-cresol, m-cresol
        {"NCC(=O)c1ccccc1", "CNC(=O)c1ccccc1"},
    };
    for (const auto &[one, other] : pairs) {
        EXPECT_FALSE(share_tautomer(one, other)) << one;
    }
}

// What the comment of Structure::tautomer says that it does not see, and sees too much of.
TEST(Tautomer, KnownLimitsAreAsDocumented) {
    EXPECT_FALSE(share_tautomer("CC(C)=O", "CC(O)=C"));
    EXPECT_FALSE(share_tautomer("CC=NC", "C=CNC"));
    EXPECT_FALSE(share_tautomer("CC[N+](=O)[O-]", "CC=[N+](O)[O-]"));
    EXPECT_FALSE(share_tautomer("CN=O", "C=NO"));
    EXPECT_TRUE(share_tautomer("OCC(O)C(O)C(O)C(O)C=O", "OCC(O)C(O)C(O)C(=O)CO"));
}

TEST(Tautomer, IsBlindToStereochemistryIsotopesAndSalts) {
    EXPECT_TRUE(share_tautomer("C[C@H](N)C(=O)O", "C[C@@H](N)C(=O)O"));
    EXPECT_TRUE(share_tautomer("C/C=C/C", "CC=CC"));
    EXPECT_TRUE(share_tautomer("[2H]c1ccccc1", "c1ccccc1"));
    EXPECT_TRUE(share_tautomer("CC(=O)CC(C)=O", "CC(=O)C=C(C)[O-].[Na+]"));
    EXPECT_TRUE(share_tautomer("Clc1ccccc1CN.Cl", "Clc1ccccc1CN"));
}

TEST(Tautomer, IsTheFirstBlockOfTheInchiKeyWithoutMobileHydrogen) {
    for (const char *smiles : {"c1ccccc1", "CCOCC", "CC(C)C", "Clc1ccccc1", "C1CCOC1"}) {
        const Structure structure = read_smiles(smiles);
        EXPECT_EQ(structure.tautomer, structure.inchikey.substr(0, 14)) << smiles;
    }
}

} // namespace
} // namespace cospot::descriptors
