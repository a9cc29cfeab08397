#include "descriptors/structure_picture.h"

#include "shared/error.h"

#include <boost/property_tree/xml_parser.hpp>
#include <gtest/gtest.h>

#include <sstream>

namespace cospot::descriptors {
namespace {

boost::property_tree::ptree parsed(const std::string &svg) {
    std::istringstream in(svg);
    boost::property_tree::ptree tree;
    boost::property_tree::read_xml(in, tree);
    return tree;
}

std::size_t paths_in(const std::string &svg) {
    const auto tree = parsed(svg);
    return tree.get_child("svg").count("path");
}

TEST(StructurePicture, IsAnElementForAPage) {
    const std::string svg = structure_svg("COc1cc(C=O)ccc1O", 200, 150);
    EXPECT_TRUE(svg.starts_with("<svg "));
    EXPECT_TRUE(svg.ends_with("</svg>"));
    EXPECT_EQ(parsed(svg).get<std::string>("svg.<xmlattr>.viewBox"), "0 0 200 150");
    for (const char *unwanted : {"<?xml", "<!--", "<text", "<rect", "xmlns:rdkit"}) {
        EXPECT_EQ(svg.find(unwanted), std::string::npos) << unwanted;
    }
}

TEST(StructurePicture, TakesTheColourOfTheTextAroundIt) {
    // Atoms that are coloured elsewhere: oxygen, nitrogen, sulfur, chlorine, bromine, phosphorus.
    const std::string svg = structure_svg("OC(N)CSC(Cl)C(Br)CP", 200, 150);
    EXPECT_NE(svg.find("currentColor"), std::string::npos);
    EXPECT_EQ(svg.find('#'), std::string::npos) << svg;
}

TEST(StructurePicture, HasALineForEachBondAtLeast) {
    EXPECT_GE(paths_in(structure_svg("CCC", 100, 100)), 2U);
    EXPECT_GE(paths_in(structure_svg("C1CCCCC1", 100, 100)), 6U);
}

TEST(StructurePicture, DrawsSaltsAndChargesAndStereo) {
    for (const char *smiles :
         {"[Na+].CC(=O)[O-]", "C[C@H](N)C(=O)O", "C/C=C/C", "C", "[2H]C([2H])[2H]"}) {
        EXPECT_GT(paths_in(structure_svg(smiles, 100, 100)), 0U) << smiles;
    }
}

TEST(StructurePicture, RefusesWhatIsNoStructureAndNoSize) {
    EXPECT_THROW((void)structure_svg("c1ccc", 100, 100), InputError);
    EXPECT_THROW((void)structure_svg("", 100, 100), InputError);
    EXPECT_THROW((void)structure_svg("CC", 0, 100), InputError);
    EXPECT_THROW((void)structure_svg("CC", 100, 2001), InputError);
}

} // namespace
} // namespace cospot::descriptors
