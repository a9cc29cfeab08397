#include "descriptors/structure.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

// The InChI bridge, seen through what it is for: the standard InChIKey of a structure.
namespace cospot::descriptors {
namespace {

struct PublishedKey {
    std::string name;
    std::string smiles;
    std::string inchikey;
};

void expect_keys(const std::vector<PublishedKey> &compounds) {
    for (const PublishedKey &compound : compounds) {
        EXPECT_EQ(read_smiles(compound.smiles).inchikey, compound.inchikey) << compound.name;
    }
}

std::string first_block(const std::string &key) {
    return key.substr(0, 14);
}
std::string second_block(const std::string &key) {
    return key.substr(15, 10);
}

// pubchem, read; all recomputed with the InChI built into the npm package @rdkit/rdkit 2026.9.1.
TEST(InchiKey, AgreesWithPublishedKeysOfUnchargedCompounds) {
    expect_keys({
        {"caffeine", "CN1C=NC2=C1C(=O)N(C)C(=O)N2C", "RYYVLZVUVIJVGH-UHFFFAOYSA-N"},
        {"aspirin", "CC(=O)OC1=CC=CC=C1C(=O)O", "BSYNRYMUTXBXSQ-UHFFFAOYSA-N"},
        {"benzene", "c1ccccc1", "UHOVQNZJYSORNB-UHFFFAOYSA-N"},
        {"ethanol", "CCO", "LFQSCWFLJHTTHZ-UHFFFAOYSA-N"},
        {"paracetamol", "CC(=O)Nc1ccc(O)cc1", "RZVAJINKPMORJF-UHFFFAOYSA-N"},
        {"naphthalene", "c1ccc2ccccc2c1", "UFWIBTONFRDIAS-UHFFFAOYSA-N"},
        {"water", "O", "XLYOFNOQVPJJNP-UHFFFAOYSA-N"},
        {"methane", "C", "VNWKTOKETHGBQD-UHFFFAOYSA-N"},
        {"hydrogen", "[H][H]", "UFHFLCQGNIYNRP-UHFFFAOYSA-N"},
        {"nitromethane", "C[N+](=O)[O-]", "LYGJENNIWJXYER-UHFFFAOYSA-N"},
        {"dimethyl sulfoxide", "CS(C)=O", "IAZDPXIOMUYVGZ-UHFFFAOYSA-N"},
    });
}

// As above.
TEST(InchiKey, AgreesWithPublishedKeysOfStereoisomers) {
    expect_keys({
        {"L-alanine", "C[C@H](N)C(=O)O", "QNAYBMKLOCPYGJ-REOHCLBHSA-N"},
        {"D-alanine", "C[C@@H](N)C(=O)O", "QNAYBMKLOCPYGJ-UWTATZPHSA-N"},
        {"(E)-but-2-ene", "C/C=C/C", "IAQRGUVFOMOMEM-ONEGZZNKSA-N"},
        {"(Z)-but-2-ene", "C/C=C\\C", "IAQRGUVFOMOMEM-ARJAWSKDSA-N"},
        {"cholesterol",
         "C[C@H](CCCC(C)C)[C@H]1CC[C@@H]2[C@@]1(CC[C@H]3[C@H]2CC=C4[C@@]3(CC[C@@H](C4)O)C)C",
         "HVYWMOMLDIMFJA-DPAQBDIFSA-N"},
        {"D-glucose (beta-pyranose)", "OC[C@H]1O[C@@H](O)[C@H](O)[C@@H](O)[C@@H]1O",
         "WQZGKKKJIJFFOK-VFUOTHLCSA-N"},
        {"(-)-menthol", "CC(C)[C@@H]1CC[C@@H](C)C[C@H]1O", "NOOLISFMXDJSKH-KXUCPTDWSA-N"},
    });
}

// As above.
TEST(InchiKey, AgreesWithPublishedKeysOfIonsIsotopesAndRadicals) {
    expect_keys({
        {"sodium chloride", "[Na+].[Cl-]", "FAPWRFPIFSIZLT-UHFFFAOYSA-M"},
        {"sodium benzoate", "[Na+].[O-]C(=O)c1ccccc1", "WXMKPNITSTVMEF-UHFFFAOYSA-M"},
        {"ammonium", "[NH4+]", "QGZKDVFQNNGYKY-UHFFFAOYSA-O"},
        {"heavy water", "[2H]O[2H]", "XLYOFNOQVPJJNP-ZSJDYOACSA-N"},
        {"deuterochloroform", "[2H]C(Cl)(Cl)Cl", "HEDRZPFGACZZDS-MICDWDOJSA-N"},
        {"oxygen", "[O][O]", "MYMOFIZGZYHOMD-UHFFFAOYSA-N"},
    });
}

TEST(InchiKey, OfEnantiomersDiffersInTheSecondBlockOnly) {
    const std::vector<std::vector<std::string>> pairs{
        {"C[C@H](O)CC", "C[C@@H](O)CC"},                       // hydrogen implied
        {"F[C@](Cl)(Br)I", "F[C@@](Cl)(Br)I"},                 // four neighbours
        {"CC[S@](C)=O", "CC[S@@](C)=O"},                       // lone pair
        {"CC(=C)[C@H]1CCC(C)=CC1", "CC(=C)[C@@H]1CCC(C)=CC1"}, // ring closure
        {"[C@H](O)(C)CC", "[C@@H](O)(C)CC"},                   // hydrogen first
        {"C[C@H]1CO1", "C[C@@H]1CO1"},                         // three-membered ring
        {"C[P@](CC)c1ccccc1", "C[P@@](CC)c1ccccc1"},           // phosphorus
        {"[2H][C@H](C)O", "[2H][C@@H](C)O"},                   // isotope
    };
    for (const auto &pair : pairs) {
        const std::string one = read_smiles(pair[0]).inchikey;
        const std::string other = read_smiles(pair[1]).inchikey;
        EXPECT_EQ(first_block(one), first_block(other)) << pair[0];
        EXPECT_NE(second_block(one), second_block(other)) << pair[0];
        EXPECT_EQ(one.substr(25), other.substr(25)) << pair[0];
    }
}

TEST(InchiKey, OfDoubleBondIsomersDiffersInTheSecondBlockOnly) {
    const std::vector<std::vector<std::string>> pairs{
        {"CC/C=C/CO", "CC/C=C\\CO"},
        {"C/C(CC)=C(/C)Cl", "C/C(CC)=C(\\C)Cl"},
        {"C/C=N/O", "C/C=N\\O"},
        {"c1ccccc1/N=N/c1ccccc1", "c1ccccc1/N=N\\c1ccccc1"},
    };
    for (const auto &pair : pairs) {
        const std::string one = read_smiles(pair[0]).inchikey;
        const std::string other = read_smiles(pair[1]).inchikey;
        EXPECT_EQ(first_block(one), first_block(other)) << pair[0];
        EXPECT_NE(second_block(one), second_block(other)) << pair[0];
    }
}

TEST(InchiKey, IsSharedByTheFormsThatAMobileHydrogenJoins) {
    EXPECT_EQ(read_smiles("Oc1ccccn1").inchikey, read_smiles("O=c1cccc[nH]1").inchikey);
    EXPECT_EQ(read_smiles("[NH3+]CC(=O)[O-]").inchikey, read_smiles("NCC(=O)O").inchikey);
}

} // namespace
} // namespace cospot::descriptors
