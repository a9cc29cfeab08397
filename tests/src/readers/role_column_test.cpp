// The column "role" of plates, chromatograms and long tables.
#include "readers/role_column.h"

#include "readers/chromatogram_table.h"
#include "readers/feature_table.h"
#include "readers/plate_table.h"

#include <gtest/gtest.h>

#include <sstream>

namespace cospot {
namespace {

template <class Read> auto read(const std::string &text, const Read &reader) {
    std::istringstream in(text);
    return reader(in, "invented.csv");
}

auto plate(const std::string &rows) {
    return read("lane,label,spot,distance_mm,front_mm,role\n" + rows,
                [](std::istream &in, const std::string &file) { return read_plate(in, file); });
}
auto chromatogram(const std::string &rows) {
    return read("peak,tR,compound,role\n" + rows, [](std::istream &in, const std::string &file) {
        return read_chromatogram(in, file);
    });
}
auto features(const std::string &rows) {
    return read(
        "sample,feature,system,quantity,value,compound,role\n" + rows,
        [](std::istream &in, const std::string &file) { return read_feature_table(in, file); });
}

/// Expects an error in this line and column that was found and expected so.
template <class Read>
void expect_error(const Read &reader, const std::string &rows, std::size_t line,
                  const std::string &column, const std::string &found,
                  const std::string &expected) {
    try {
        (void)reader(rows);
        FAIL() << "no error: " << rows;
    } catch (const InputError &error) {
        EXPECT_EQ(error.where().file, "invented.csv");
        EXPECT_EQ(error.where().line, line) << error.what();
        EXPECT_EQ(error.where().column, column) << error.what();
        EXPECT_NE(error.found().find(found), std::string::npos) << error.what();
        EXPECT_NE(error.expected().find(expected), std::string::npos) << error.what();
    }
}

TEST(RoleColumn, IsReadWhateverItsCase) {
    const auto spots = plate("1,flask,a,30,55,Sample\n2,vanillin,a,31,55,STANDARD\n"
                             "3,flask + vanillin,a,30,55,CoSpot\n4,flask,a,30,55,\n");
    EXPECT_EQ(spots[0].role, RowRole::sample);
    EXPECT_EQ(spots[1].role, RowRole::standard);
    EXPECT_EQ(spots[2].role, RowRole::cospot);
    EXPECT_EQ(spots[3].role, RowRole::sample); // empty
}

TEST(RoleColumn, AnUnknownRoleIsRefused) {
    expect_error(plate, "1,flask,a,30,55,blank\n", 2, "role", "\"blank\"",
                 "sample, standard or cospot");
    expect_error(chromatogram, "1,3.0,,\n2,4.0,,internal\n", 3, "role", "\"internal\"",
                 "sample or standard");
    expect_error(features, "s,1,silica,Rf,0.3,,ladder\n", 2, "role", "\"ladder\"",
                 "sample or standard");
}

TEST(RoleColumn, OnlyAPlateHasCoSpots) {
    expect_error(chromatogram, "1,3.0,vanillin,cospot\n", 2, "role", "\"cospot\"",
                 "sample or standard");
    expect_error(features, "s,1,silica,Rf,0.3,vanillin,cospot\n", 2, "role", "\"cospot\"",
                 "sample or standard");
}

TEST(RoleColumn, AStandardNeedsItsCompound) {
    expect_error(plate, "1,flask,a,30,55,\n2,,a,31,55,standard\n", 3, "label", "nothing",
                 "the name of the standard's compound");
    expect_error(chromatogram, "1,3.0,,standard\n", 2, "compound", "nothing",
                 "the compound that the standard is");
    expect_error(features, "s,1,silica,Rf,0.3,,standard\n", 2, "compound", "nothing",
                 "the compound that the standard is");
}

TEST(RoleColumn, ACoSpotNamesSampleAndStandard) {
    const auto spots = plate("3,flask 7 + vanillin,a,30,55,cospot\n"
                             "4,A + B + vanillin,a,30,55,cospot\n");
    EXPECT_EQ(spots[0].label, "flask 7");
    EXPECT_EQ(spots[0].over, "vanillin");
    EXPECT_EQ(spots[1].label, "A + B"); // the standard is behind the last plus
    EXPECT_EQ(spots[1].over, "vanillin");
    for (const char *label : {"flask 7", "flask+vanillin", ""}) {
        expect_error(plate, std::string("3,") + label + ",a,30,55,cospot\n", 2, "label",
                     "\"" + std::string(label) + "\"", "as in flask 7 + vanillin");
    }
}

TEST(RoleColumn, APeakWithACompoundIsAStandardUnlessItsRoleSaysOtherwise) {
    const auto peaks = chromatogram("1,3.0,vanillin,\n2,4.0,coumarin,sample\n3,5.0,,\n"
                                    "4,6.0,menthol,standard\n");
    EXPECT_EQ(peaks[0].compound, "vanillin");
    EXPECT_EQ(peaks[1].compound, "");
    EXPECT_EQ(peaks[2].compound, "");
    EXPECT_EQ(peaks[3].compound, "menthol");
}

TEST(RoleColumn, ALongTableKeepsStandardsApartFromFeatures) {
    const FeatureSet set = features("s,1,silica,Rf,0.3,,\ns,2,silica,Rf,0.5,vanillin,\n"
                                    ",3,silica,Rf,0.6,coumarin,standard\n"
                                    "s,4,silica,Rf,0.7,menthol,sample\n");
    ASSERT_EQ(set.features.size(), 2U);
    EXPECT_EQ(set.features[0].name, "1");
    EXPECT_EQ(set.features[0].run, "s");
    EXPECT_EQ(set.features[1].name, "4");
    ASSERT_EQ(set.standards.size(), 2U);
    EXPECT_EQ(set.standards[0].compound, "vanillin");
    EXPECT_EQ(set.standards[0].run, "s"); // beside the features of its sample
    EXPECT_DOUBLE_EQ(set.standards[0].observation.value, 0.5);
    EXPECT_EQ(set.standards[1].run, ""); // beside all
}

TEST(RoleColumn, ALongTableOfStandardsOnlyIsRefused) {
    expect_error(features, "s,2,silica,Rf,0.5,vanillin,\n", 2, "", "standards only",
                 "one row an observation of a sample");
}

} // namespace
} // namespace cospot
