// What detectors do not show: common practice, no source.
#include "purity/detectors.h"

#include <gtest/gtest.h>

namespace cospot::purity {
namespace {

std::string why(const char *detector, const char *formula, const char *group = nullptr) {
    library::Compound compound;
    compound.formula = formula;
    library::Description description;
    if (group != nullptr) {
        description.groups[group] = 1;
    }
    return why_hardly_seen(*find_detector(detector), compound, description);
}

TEST(Detectors, AFlameNeedsCarbonWithHydrogen) {
    for (const char *unseen : {"H2O", "CO2", "CS2", "H3N", "CCl4", "CH2O2", "CH2O"}) {
        EXPECT_NE(why("fid", unseen), "") << unseen;
    }
    for (const char *seen : {"CH4", "C2H6O", "CHCl3", "C3H7NO"}) {
        EXPECT_EQ(why("fid", seen), "") << seen;
    }
}

TEST(Detectors, ThermalConductivitySeesWaterButSaysNothingOfTraces) {
    EXPECT_EQ(why("tcd", "H2O"), "");
    EXPECT_NE(why("tcd", "H2"), "");
    EXPECT_NE(find_detector("TCD")->blind.find("no traces"), std::string::npos);
}

TEST(Detectors, ElectronsAreCapturedByHalogensAndNitroGroups) {
    EXPECT_EQ(why("ecd", "CH2Cl2"), "");
    EXPECT_EQ(why("ecd", "C6H5NO2", "aromatic_nitro"), "");
    EXPECT_EQ(why("ecd", "C6H4O2", "quinone"), "");
    EXPECT_NE(why("ecd", "C6H14", "methylene"), "");
    EXPECT_NE(why("ecd", "C2H6O", "primary_alcohol"), "");
}

TEST(Detectors, ThoseOfAnElementNeedIt) {
    EXPECT_EQ(why("npd", "C5H5N"), "");
    EXPECT_NE(why("npd", "C6H6"), "");
    EXPECT_EQ(why("fpd", "C2H6OS"), "");
    EXPECT_NE(why("fpd", "C5H5N"), "");
}

TEST(Detectors, AMassSpectrometerSaysWhatItsModeLeavesOut) {
    EXPECT_NE(find_detector("ms-scan")->blind.find("outside the scanned range"), std::string::npos);
    EXPECT_NE(find_detector("ms-sim")->blind.find("only compounds that give the chosen ions"),
              std::string::npos);
    EXPECT_EQ(why("ms-sim", "C6H6"), "");
}

TEST(Detectors, NothingIsSaidOfACompoundThatIsNotDescribed) {
    library::Compound compound;
    EXPECT_EQ(why_hardly_seen(*find_detector("fid"), compound, std::nullopt), "");
    compound.formula = "C6H5NO2";
    EXPECT_EQ(why_hardly_seen(*find_detector("ecd"), compound, std::nullopt), "");
    EXPECT_EQ(find_detector("eye"), nullptr);
    EXPECT_EQ(detector_names(Technique::hplc), "uv, ms-scan or ms-sim");
}

} // namespace
} // namespace cospot::purity
