#include "shared/usual_headers.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace cospot {
namespace {

// Words of the trade: common practice, no source.
TEST(UsualHeaders, AreToldThroughUnitsInBracketsStopsAndCase) {
    for (const char *header :
         {"Ret. Time [min]", "RT", "Retention Time", "retention_time (min)", "RT (s)"}) {
        EXPECT_TRUE(usually_means(header, "tR")) << header;
    }
    EXPECT_TRUE(usually_means("Area [pA*s]", "area"));
    EXPECT_TRUE(usually_means("Gehalt [ppm]", "ppm"));
    EXPECT_TRUE(usually_means("Content (mg/kg)", "ppm"));
    EXPECT_TRUE(usually_means("Alkan", "carbon"));
}

TEST(UsualHeaders, WhatMeansSomethingElseIsNotProposed) {
    EXPECT_FALSE(usually_means("Area [%]", "area"));
    EXPECT_FALSE(usually_means("Rel. Area [%]", "area"));
    EXPECT_FALSE(usually_means("Area %", "area"));
    EXPECT_FALSE(usually_means("Vial", "tR"));
    EXPECT_FALSE(usually_means("tR", "tR")); // that is the name itself
}

TEST(UsualHeaders, AreProposedAsOneWouldTypeThem) {
    EXPECT_EQ(
        proposed_maps({"Vial", "Ret. Time [min]", "RT", "Area [pA*s]"}, {"tR", "area", "peak"}),
        "--map tR=\"Ret. Time [min]\" --map area=\"Area [pA*s]\"");
    EXPECT_EQ(proposed_maps({"Alkan"}, {"carbon"}, "--ladder-map"),
              "--ladder-map carbon=\"Alkan\"");
    EXPECT_EQ(proposed_maps({"Vial"}, {"tR"}), "");
}

} // namespace
} // namespace cospot
