#include "expectation/eluent_advice.h"

#include "quantities/plate.h"

#include <gtest/gtest.h>

namespace cospot {
namespace {

// soczewinski1969, R_M = a - n log10(phi) from memory; numbers invented. R_M 0.602 at phi 0.1 and 0
// at phi 0.4 make n = 1; R_F 1/3 (R_M 0.301) lies at phi 0.2.
TEST(FractionFor, InterpolatesRMAlongTheLogarithmOfTheVolumeFraction) {
    EXPECT_NEAR(fraction_for(1.0 / 3.0, 0.1, 0.2, 0.4, 0.5).value(), 0.2, 1e-9);
    EXPECT_NEAR(fraction_for(1.0 / 3.0, 0.4, 0.5, 0.1, 0.2).value(), 0.2, 1e-9);
    EXPECT_NEAR(fraction_for(0.2, 0.1, 0.2, 0.4, 0.5).value(), 0.1, 1e-9);
}

TEST(FractionFor, NeverExtrapolates) {
    EXPECT_FALSE(fraction_for(0.6, 0.1, 0.2, 0.4, 0.5).has_value());
    EXPECT_FALSE(fraction_for(0.1, 0.1, 0.2, 0.4, 0.5).has_value());
    EXPECT_FALSE(fraction_for(0.3, 0.0, 0.2, 0.4, 0.5).has_value()); // no logarithm
    EXPECT_FALSE(fraction_for(0.3, 0.1, 0.0, 0.4, 0.5).has_value()); // censored
    EXPECT_FALSE(fraction_for(0.3, 0.1, 0.2, 0.4, 1.0).has_value());
    EXPECT_FALSE(fraction_for(0.3, 0.1, 0.3, 0.4, 0.3).has_value()); // no slope
}

TEST(EluentChange, AimsAtAnRfOf0_20To0_35) {
    EXPECT_EQ(eluent_change(0.19), EluentChange::stronger);
    EXPECT_EQ(eluent_change(0.20), EluentChange::keep);
    EXPECT_EQ(eluent_change(0.35), EluentChange::keep);
    EXPECT_EQ(eluent_change(0.36), EluentChange::weaker);
    EXPECT_EQ(eluent_change(0.0), EluentChange::stronger);
    EXPECT_EQ(eluent_change(1.0), EluentChange::weaker);
}

// eluotropicorder, read.
TEST(StrongestSolvent, GoesByStrengthOnSilica) {
    EXPECT_EQ(strongest_solvent({{"hexane", 4.0}, {"EtOAc", 1.0}}), "ethyl acetate");
    EXPECT_EQ(strongest_solvent({{"MeOH", 1.0}, {"dichloromethane", 20.0}}), "methanol");
    EXPECT_EQ(strongest_solvent({{"toluene", 1.0}}), "");
    EXPECT_EQ(strongest_solvent({{"hexane", 1.0}, {"no such solvent", 1.0}}), "");
}

} // namespace
} // namespace cospot
