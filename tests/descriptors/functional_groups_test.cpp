#include "descriptors/functional_groups.h"

#include "descriptors/descriptors.h"

#include <gtest/gtest.h>

#include <map>
#include <set>
#include <string>
#include <vector>

namespace cospot::descriptors {
namespace {

using Counted = std::map<std::string, int>;

/// The groups that occur, without the carbon skeleton, which is tested by itself.
Counted groups_of(const std::string &smiles, bool with_skeleton = false) {
    static const std::set<std::string> skeleton{"methyl", "methylene", "ring_methylene",
                                                "branching_carbon", "benzene_ring"};
    const Descriptors result = describe(smiles);
    Counted counted;
    for (std::size_t index = 0; index < functional_groups().size(); ++index) {
        const std::string &name = functional_groups()[index].name;
        if (result.groups[index] > 0 && (with_skeleton || skeleton.count(name) == 0)) {
            counted[name] = result.groups[index];
        }
    }
    return counted;
}

struct Case {
    std::string smiles;
    Counted groups;
};

void expect_groups(const std::vector<Case> &cases) {
    for (const Case &one : cases) {
        EXPECT_EQ(groups_of(one.smiles), one.groups) << one.smiles;
    }
}

TEST(FunctionalGroups, HaveDistinctNamesAndAMeaning) {
    std::set<std::string> names;
    for (const FunctionalGroup &group : functional_groups()) {
        EXPECT_TRUE(names.insert(group.name).second) << group.name;
        EXPECT_EQ(group.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz_"), std::string::npos)
            << group.name;
        EXPECT_FALSE(group.smarts.empty()) << group.name;
        EXPECT_FALSE(group.meaning.empty()) << group.name;
    }
    EXPECT_GE(names.size(), 50U);
    EXPECT_EQ(describe("C").groups.size(), names.size());
}

// Which class a compound belongs to: textbook knowledge, as in moss1995, from memory.
TEST(FunctionalGroups, TellTheSkeleton) {
    EXPECT_EQ(groups_of("CCCC(C)C", true),
              (Counted{{"methyl", 3}, {"methylene", 2}, {"branching_carbon", 1}}));
    EXPECT_EQ(groups_of("CC(C)(C)C", true), (Counted{{"methyl", 4}, {"branching_carbon", 1}}));
    EXPECT_EQ(groups_of("Cc1ccc2ccccc2c1", true), (Counted{{"methyl", 1}, {"benzene_ring", 2}}));
    EXPECT_EQ(groups_of("C1CCCCC1", true), (Counted{{"ring_methylene", 6}}));
    expect_groups({{"C=CC=C", {{"alkene", 2}, {"conjugated_diene", 1}}},
                   {"C=C=C", {{"alkene", 2}}},
                   {"CC#C", {{"alkyne", 1}}},
                   {"c1ccccc1", {}}});
}

TEST(FunctionalGroups, TellHydroxyGroupsApart) {
    expect_groups({{"CO", {{"primary_alcohol", 1}}},
                   {"CCO", {{"primary_alcohol", 1}}},
                   {"CC(C)O", {{"secondary_alcohol", 1}}},
                   {"CC(C)(C)O", {{"tertiary_alcohol", 1}}},
                   {"Oc1ccccc1", {{"phenol", 1}}},
                   {"OCc1ccccc1", {{"primary_alcohol", 1}}},
                   {"CC(=C)O", {{"alkene", 1}, {"enol", 1}}},
                   {"CC(O)OC", {{"hemiacetal", 1}}},
                   {"CC(=O)O", {{"carboxylic_acid", 1}}},
                   {"OCCO", {{"primary_alcohol", 2}, {"vicinal_diol", 1}}},
                   {"Oc1ccccc1O", {{"phenol", 2}, {"catechol", 1}}},
                   {"OC[C@H]1O[C@@H](O)[C@H](O)[C@@H](O)[C@@H]1O", // glucopyranose
                    {{"primary_alcohol", 1},
                     {"secondary_alcohol", 3},
                     {"hemiacetal", 1},
                     {"vicinal_diol", 3}}}});
}

TEST(FunctionalGroups, TellEthersFromOtherOxygens) {
    expect_groups({{"CCOCC", {{"dialkyl_ether", 1}}},
                   {"C1CCOC1", {{"dialkyl_ether", 1}}},
                   {"COc1ccccc1", {{"alkyl_aryl_ether", 1}}},
                   {"c1ccc(cc1)Oc1ccccc1", {{"diaryl_ether", 1}}},
                   {"C1CO1", {{"epoxide", 1}}},
                   {"COC(C)OC", {{"acetal", 1}}},
                   {"C1Oc2ccccc2O1", {{"acetal", 1}}}, // methylenedioxybenzene
                   {"COC=C", {{"alkene", 1}, {"enol_ether", 1}}},
                   {"c1ccoc1", {{"furan_oxygen", 1}}},
                   {"CCOOCC", {{"peroxide", 1}}},
                   {"COC(C)=O", {{"ester", 1}}},
                   {"COC=O", {{"ester", 1}}},
                   {"O=C1CCCO1", {{"lactone", 1}}},
                   {"COC(=O)OC", {{"carbonate", 1}}},
                   {"CC(=O)OC(C)=O", {{"anhydride", 1}}}});
}

TEST(FunctionalGroups, TellCarbonylsApart) {
    expect_groups(
        {{"CC=O", {{"aldehyde", 1}}},
         {"C=O", {{"aldehyde", 1}}},
         {"O=Cc1ccccc1", {{"aldehyde", 1}}},
         {"CC(C)=O", {{"ketone", 1}}},
         {"O=C1C=CC(=O)C=C1", {{"alkene", 2}, {"quinone", 1}, {"conjugated_carbonyl", 4}}},
         {"O=C1c2ccccc2C(=O)c2ccccc12", {{"quinone", 1}}},
         {"O=c1ccc2ccccc2o1", {{"furan_oxygen", 1}, {"aromatic_carbonyl", 1}}}, // coumarin
         {"CC(=O)[O-]", {{"carboxylate", 1}}},
         {"CC(=O)Cl", {{"acyl_halide", 1}}},
         {"CC(=O)SC", {{"thioester", 1}}},
         {"CC(N)=S", {{"thiocarbonyl", 1}}}});
}

TEST(FunctionalGroups, TellAmidesApart) {
    expect_groups({{"CC(N)=O", {{"primary_amide", 1}}},
                   {"CNC(C)=O", {{"secondary_amide", 1}}},
                   {"CN(C)C=O", {{"tertiary_amide", 1}}},
                   {"O=C1CCCCN1", {{"lactam", 1}}},
                   {"O=C1CCC(=O)N1", {{"imide", 1}}},
                   {"CNC(=O)OC", {{"carbamate", 1}}},
                   {"NC(N)=O", {{"urea", 1}}},
                   {"CS(=O)(=O)N", {{"sulfonamide", 1}}},
                   {"CC(=O)Nc1ccccc1", {{"secondary_amide", 1}}}});
}

TEST(FunctionalGroups, TellNitrogensApart) {
    expect_groups({{"CCN", {{"primary_amine", 1}}},
                   {"CNC", {{"secondary_amine", 1}}},
                   {"CN(C)C", {{"tertiary_amine", 1}}},
                   {"Nc1ccccc1", {{"primary_aromatic_amine", 1}}},
                   {"CNc1ccccc1", {{"secondary_aromatic_amine", 1}}},
                   {"CN(C)c1ccccc1", {{"tertiary_aromatic_amine", 1}}},
                   {"c1ccc(cc1)Nc1ccccc1", {{"secondary_aromatic_amine", 1}}},
                   {"CC[NH3+]", {{"ammonium", 1}}},
                   {"C[N+](C)(C)C", {{"quaternary_ammonium", 1}}},
                   {"C[N+](C)(C)[O-]", {{"n_oxide", 1}}},
                   {"[O-][n+]1ccccc1", {{"n_oxide", 1}}},
                   {"c1ccncc1", {{"pyridine_nitrogen", 1}}},
                   {"c1cc[nH]c1", {{"pyrrole_nh", 1}}},
                   {"c1ccc2[nH]ccc2c1", {{"pyrrole_nh", 1}}},
                   {"c1c[nH]cn1", {{"pyridine_nitrogen", 1}, {"pyrrole_nh", 1}}},
                   {"C[n+]1ccccc1", {{"pyridinium", 1}}},
                   {"CC#N", {{"nitrile", 1}}},
                   {"C[N+](=O)[O-]", {{"aliphatic_nitro", 1}}},
                   {"O=[N+]([O-])c1ccccc1", {{"aromatic_nitro", 1}}},
                   {"CO[N+](=O)[O-]", {{"nitrate_ester", 1}}},
                   {"CC=NC", {{"imine", 1}}},
                   {"CC=NO", {{"oxime", 1}}},
                   {"CC=NNC", {{"hydrazone", 1}}},
                   {"CC(N)=N", {{"amidine", 1}}},
                   {"NC(N)=N", {{"guanidine", 1}}},
                   {"CN=NC", {{"azo", 1}}},
                   {"CNNC", {{"hydrazine", 1}}},
                   {"CN=C=O", {{"isocyanate", 1}}},
                   {"CN=C=S", {{"isocyanate", 1}}}});
    EXPECT_EQ(groups_of("Cn1cnc2c1c(=O)n(C)c(=O)n2C"), // caffeine
              (Counted{{"aromatic_carbonyl", 2},
                       {"pyridine_nitrogen", 1},
                       {"substituted_pyrrole_nitrogen", 3}}));
}

TEST(FunctionalGroups, TellSulfurPhosphorusAndSilicon) {
    expect_groups({{"CS", {{"thiol", 1}}},
                   {"CSC", {{"dialkyl_sulfide", 1}}},
                   {"CSc1ccccc1", {{"aryl_sulfide", 1}}},
                   {"CSC=C", {{"alkene", 1}, {"alkenyl_sulfide", 1}}},
                   {"CSSC", {{"disulfide", 1}}},
                   {"c1ccsc1", {{"thiophene_sulfur", 1}}},
                   {"CS(C)=O", {{"sulfoxide", 1}}},
                   {"C[S+](C)[O-]", {{"sulfoxide", 1}}},
                   {"CS(C)(=O)=O", {{"sulfone", 1}}},
                   {"CS(=O)(=O)O", {{"sulfonic_acid", 1}}},
                   {"CS(=O)(=O)OC", {{"sulfonate_ester", 1}}},
                   {"COS(=O)(=O)OC", {{"sulfate", 1}}},
                   {"COP(=O)(OC)OC", {{"phosphoryl", 1}}},
                   {"COP(=S)(OC)OC", {{"thiophosphoryl", 1}}},
                   {"CO[Si](C)(C)C", {{"silyl_ether", 1}}}});
}

TEST(FunctionalGroups, TellHalogensApart) {
    expect_groups({{"FC(F)(F)c1ccccc1Cl", {{"aliphatic_fluorine", 3}, {"aromatic_chlorine", 1}}},
                   {"ClC(Cl)Cl", {{"aliphatic_chlorine", 3}}},
                   {"BrCBr", {{"aliphatic_bromine", 2}}},
                   {"CI", {{"aliphatic_iodine", 1}}},
                   {"Fc1ccccc1", {{"aromatic_fluorine", 1}}},
                   {"Brc1ccccc1", {{"aromatic_bromine", 1}}},
                   {"Ic1ccccc1", {{"aromatic_iodine", 1}}},
                   {"ClC=C", {{"alkene", 1}, {"alkenyl_halide", 1}}}});
}

// Common practice, no source: such neighbours hide each other from silica by an internal bond.
TEST(FunctionalGroups, SeeInternalHydrogenBonds) {
    expect_groups(
        {{"O=Cc1ccccc1O", {{"phenol", 1}, {"aldehyde", 1}, {"ortho_hydroxy_carbonyl", 1}}},
         {"O=Cc1cccc(O)c1", {{"phenol", 1}, {"aldehyde", 1}}},
         {"Oc1ccccc1[N+](=O)[O-]",
          {{"phenol", 1}, {"aromatic_nitro", 1}, {"ortho_nitrophenol", 1}}},
         {"Oc1ccc(cc1)[N+](=O)[O-]", {{"phenol", 1}, {"aromatic_nitro", 1}}},
         {"COC(=O)c1ccccc1N",
          {{"ester", 1}, {"primary_aromatic_amine", 1}, {"ortho_amino_carbonyl", 1}}},
         {"O=c1ccoc2cccc(O)c12", // 5-hydroxychromone
          {{"phenol", 1},
           {"furan_oxygen", 1},
           {"aromatic_carbonyl", 1},
           {"ortho_hydroxy_carbonyl", 1}}}});
}

TEST(FunctionalGroups, DescribeDrugsAsAChemistWould) {
    expect_groups({{"CC(=O)Oc1ccccc1C(=O)O", {{"carboxylic_acid", 1}, {"ester", 1}}},
                   {"CC(=O)Nc1ccc(O)cc1", {{"phenol", 1}, {"secondary_amide", 1}}},
                   {"CN1CCCC1c1cccnc1", {{"tertiary_amine", 1}, {"pyridine_nitrogen", 1}}},
                   {"NS(=O)(=O)c1ccc(N)cc1", {{"primary_aromatic_amine", 1}, {"sulfonamide", 1}}},
                   {"CN1C(=O)CN=C(c2ccccc2)c2cc(Cl)ccc21",
                    {{"lactam", 1}, {"imine", 1}, {"aromatic_chlorine", 1}}}});
}

} // namespace
} // namespace cospot::descriptors
