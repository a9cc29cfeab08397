#include "readers/measured_amount.h"
#include "readers/no_compound.h"

#include <gtest/gtest.h>

namespace cospot {
namespace {

// Words of the trade: common practice, no source.
TEST(MeasuredAmount, BelowALimitThatIsNotANumber) {
    for (const char *text : {"<LOQ", "< LOD", "n.d.", "BLQ", "N.D.", "< LOQ"}) {
        EXPECT_TRUE(amount_below(text).is_below) << text;
        EXPECT_FALSE(amount_below(text).limit) << text;
    }
}

TEST(MeasuredAmount, BelowANumberWithEitherSign) {
    EXPECT_EQ(amount_below("< 20").limit, 20.0);
    EXPECT_EQ(amount_below("<0,5").limit, 0.5);
    EXPECT_EQ(amount_below("<1.000,5").limit, 1000.5);
}

TEST(MeasuredAmount, WhatIsNotDetectedIsToldFromWhatIsNotQuantified) {
    for (const char *text : {"n.d.", "< LOD", "<DL", "not detected", "< NG"}) {
        EXPECT_TRUE(amount_below(text).is_undetected) << text;
    }
    for (const char *text : {"< LOQ", "BLQ", "< 20", "<LLOQ", "n.q."}) {
        EXPECT_TRUE(amount_below(text).is_below) << text;
        EXPECT_FALSE(amount_below(text).is_undetected) << text;
    }
}

TEST(MeasuredAmount, AllElseIsLeftToTheTable) {
    for (const char *text : {"", "20", "> 20", "<", "< x", "<-3", "no", "n"}) {
        EXPECT_FALSE(amount_below(text).is_below) << text;
    }
}

TEST(NoCompound, IsWhatSaysThatNobodyKnows) {
    for (const char *text : {"unknown", "Unknown", "unk", "n.i.", "?", "unidentified", "Unknown 3",
                             "unk-2", " UNKNOWN "}) {
        EXPECT_TRUE(names_no_compound(text)) << text;
    }
    for (const char *text : {"", "toluene", "Ni", "unknownol", "nickel", "2-butanol", "unk acid"}) {
        EXPECT_FALSE(names_no_compound(text)) << text;
    }
}

TEST(NoCompound, ThePeakOfTheHoldUpTimeHasNamesOfItsOwn) {
    for (const char *text : {"solvent front", "Void", "t0", "injection peak", "Solvent Peak 1",
                             "Totzeit", "dead volume", "front"}) {
        EXPECT_TRUE(names_unretained(text)) << text;
        EXPECT_FALSE(names_no_compound(text)) << text;
    }
    for (const char *text : {"", "t", "solvent", "frontalin", "toluene", "unknown"}) {
        EXPECT_FALSE(names_unretained(text)) << text;
    }
}

} // namespace
} // namespace cospot
