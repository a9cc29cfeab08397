#include "descriptors/boiling_point.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace cospot::descriptors {
namespace {

struct JobackExample {
    std::string smiles;
    double kelvin;
};

BoilingPoint joback(const std::string &smiles) {
    return boiling_points(smiles).joback;
}

// joback1987: acetone and formic acid read, the others recomputed from the printed contributions
// (of 1,4-dichlorobenzene reid1987 works the sum as an example, from memory).
TEST(JobackBoilingPoint, IsThePublishedSum) {
    const std::vector<JobackExample> examples{
        {"CC(C)=O", 322.11},        {"OC=O", 367.29},      {"Cc1ccccc1", 386.44},
        {"CCCCCCCCO", 474.82},      {"CCOC(C)=O", 349.34}, {"c1ccc2ccccc2c1", 474.06},
        {"Clc1ccc(Cl)cc1", 443.40}, {"Oc1ccccc1", 439.20}, {"CCCCCCCCCC", 428.40},
        {"COC(C)(C)C", 333.19},     {"CC#N", 347.44},      {"c1ccncc1", 389.40},
    };
    for (const JobackExample &example : examples) {
        const BoilingPoint point = joback(example.smiles);
        ASSERT_TRUE(point.kelvin) << example.smiles << ": " << point.missing;
        EXPECT_NEAR(*point.kelvin, example.kelvin, 0.01) << example.smiles;
        EXPECT_FALSE(point.standard_error_kelvin) << example.smiles;
        EXPECT_EQ(point.missing, "") << example.smiles;
    }
}

// Computed by hand from the same table: groups that the examples above do not reach.
TEST(JobackBoilingPoint, TakesEveryHeavyAtomOnce) {
    const std::vector<JobackExample> examples{
        {"C[N+](=O)[O-]", 198.2 + 23.58 + 152.54},           // nitro is one group
        {"CN(=O)=O", 198.2 + 23.58 + 152.54},                // and so is its other drawing
        {"O=C1CCCCC1", 198.2 + 5 * 27.15 + 94.97},           // ketone in a ring
        {"CC(=O)OC(C)=O", 198.2 + 2 * 23.58 + 81.1 + 76.75}, // ester and ketone share no oxygen
        {"C=C=C", 198.2 + 2 * 18.18 + 26.15},                // allene
        {"C#CC", 198.2 + 9.2 + 27.38 + 23.58},               // alkyne
        {"CN=C=O", 198.2 + 23.58 + 74.6 + 26.15 - 10.5},     // isocyanate
        {"c1cc[nH]c1", 198.2 + 4 * 26.73 + 52.82},           // pyrrole
        {"c1ccsc1", 198.2 + 4 * 26.73 + 52.1},               // thiophene
        {"NC(C)=O", 198.2 + 23.58 + 76.75 + 73.23},          // amide
        {"O=C1OCCC1", 198.2 + 3 * 27.15 + 81.1},             // lactone
        {"O=c1ccc2ccccc2o1", 198.2 + 6 * 26.73 + 2 * 31.01 + 81.1}, // coumarin
        {"[2H]C([2H])([2H])Cl", 198.2 + 23.58 + 38.13},             // isotopes are hydrogens
    };
    for (const JobackExample &example : examples) {
        const BoilingPoint point = joback(example.smiles);
        ASSERT_TRUE(point.kelvin) << example.smiles << ": " << point.missing;
        EXPECT_NEAR(*point.kelvin, example.kelvin, 1e-9) << example.smiles;
    }
}

TEST(JobackBoilingPoint, SaysWhichAtomHasNoGroup) {
    EXPECT_EQ(joback("CS(C)=O").missing, "no group for atom 2 (S, bonded to C, C, =O)");
    EXPECT_EQ(joback("CN1CCCC1").missing, "no group for atom 2 (N in a ring, bonded to C, C, C)");
    EXPECT_EQ(joback("C").missing, "no group for atom 1 (C with 4 H)");
    EXPECT_EQ(joback("C[Si](C)(C)C").missing, "no group for atom 2 (Si, bonded to C, C, C, C)");
    EXPECT_EQ(joback("C[N+](C)(C)C").missing,
              "no group for atom 2 (N, charge +1, bonded to C, C, C, C)");
    EXPECT_EQ(joback("C[CH]C").missing, "no group for atom 2 (C with 1 H, bonded to C, C)");
    EXPECT_EQ(joback("C[CH-]C").missing,
              "no group for atom 2 (C with 1 H, charge -1, bonded to C, C)");
    EXPECT_FALSE(joback("CS(C)=O").kelvin);
}

TEST(JobackBoilingPoint, RefusesSeveralFragments) {
    const BoilingPoint salt = joback("C[NH3+].[Cl-]");
    EXPECT_FALSE(salt.kelvin);
    EXPECT_EQ(salt.missing, "several fragments: a salt or a mixture");
    EXPECT_FALSE(joback("CCO.CCO").kelvin);
}

} // namespace
} // namespace cospot::descriptors
