#include "quantities/stationary_phase.h"

#include <gtest/gtest.h>

namespace cospot::quantities {
namespace {

// Common practice, no source.
TEST(StationaryPhase, ReversedPhasesAreKnownByTheirChains) {
    for (const char *name : {"C18", "octadecylsilica (C18)", "RP-18", "ODS", "C8", "phenyl-hexyl",
                             "Octyl silica", "reversed phase"}) {
        EXPECT_EQ(liquid_phase_of(name), LiquidPhase::reversed) << name;
    }
}

TEST(StationaryPhase, BareAdsorbentsAreNormal) {
    for (const char *name : {"silica gel", "Silica", "alumina", "diol"}) {
        EXPECT_EQ(liquid_phase_of(name), LiquidPhase::normal) << name;
    }
}

TEST(StationaryPhase, WhatWorksBothWaysOrSaysNothingIsUnknown) {
    for (const char *name : {"", "cyano silica", "amino", "my column", "c180x"}) {
        EXPECT_EQ(liquid_phase_of(name), LiquidPhase::unknown) << name;
    }
}

TEST(StationaryPhase, GasPhasesByPolarity) {
    for (const char *name : {"dimethylsilicone", "5 % phenyl methylsilicone", "squalane",
                             "5% diphenyl / 95% dimethyl polysiloxane", "100 % methylsilicone"}) {
        EXPECT_EQ(gas_phase_of(name), GasPhase::non_polar) << name;
    }
    for (const char *name :
         {"polyethylene glycol", "wax", "50 % phenyl methylsilicone",
          "14 % cyanopropylphenyl methylsilicone", "trifluoropropyl methylsilicone"}) {
        EXPECT_EQ(gas_phase_of(name), GasPhase::polar) << name;
    }
    EXPECT_EQ(gas_phase_of("house column"), GasPhase::unknown);
    EXPECT_EQ(gas_phase_of(""), GasPhase::unknown);
}

} // namespace
} // namespace cospot::quantities
