// Units at the ends of column names. The factors are those of the SI Brochure (9th edition, 2019),
// tables 4 and 8 (from memory).
#include "shared/column_unit.h"

#include <gtest/gtest.h>

namespace cospot {
namespace {

TEST(ColumnUnit, IsTakenOffWhateverStandsBeforeIt) {
    for (const char *header : {"distance_mm", "distance (mm)", "distance [mm]", "distance/mm",
                               "distance / mm", "distance, mm", "distance mm", " distance (MM) "}) {
        const NameWithUnit split = split_unit(header);
        EXPECT_EQ(split.name, "distance") << header;
        EXPECT_TRUE(split.unit == "mm" || split.unit == "MM") << header;
    }
    for (const char *header : {"lane", "mm", "film thickness", "", "(mm)", "tR", "x_y"}) {
        EXPECT_EQ(split_unit(header).unit, "") << header;
    }
}

TEST(ColumnUnit, ConvertsWithinAKindOnly) {
    EXPECT_DOUBLE_EQ(unit_factor("cm", "mm").value(), 10.0);
    EXPECT_DOUBLE_EQ(unit_factor("s", "min").value(), 1.0 / 60.0);
    EXPECT_DOUBLE_EQ(unit_factor("L", "ml").value(), 1000.0);
    EXPECT_DOUBLE_EQ(unit_factor("g", "mg").value(), 1000.0);
    EXPECT_DOUBLE_EQ(unit_factor("um", "m").value(), 1e-6);
    EXPECT_EQ(unit_factor("s", "mm"), std::nullopt);
    EXPECT_EQ(unit_factor("furlong", "mm"), std::nullopt);
    EXPECT_EQ(unit_factor("", "mm"), std::nullopt);
}

} // namespace
} // namespace cospot
