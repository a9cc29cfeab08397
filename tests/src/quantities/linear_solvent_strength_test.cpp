#include "quantities/linear_solvent_strength.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace cospot::quantities {
namespace {

// snyder2007, formula read; numbers invented.
TEST(LinearSolventStrength, MatchesWorkedExample) {
    const SolventStrengthLaw law{2.9, 4.0};
    EXPECT_NEAR(retention_factor_at(law, 0.3), 50.12, 0.01);
    EXPECT_NEAR(retention_factor_at(law, 0.5), 7.943, 0.001);
    EXPECT_NEAR(retention_factor_at(law, 0.7), 1.259, 0.001);
    EXPECT_NEAR(fraction_for(law, 7.943), 0.5, 1e-4);
}

// skoog, recomputed: k 64.2 in 30 % methanol, k 5 in 73.5 % by the polarity rule, which is a line
// of slope (10.2 - 5.1)/2 in phi.
TEST(LinearSolventStrength, AgreesWithThePolarityRuleOfATextbook) {
    const double slope = (10.2 - 5.1) / 2.0;
    const SolventStrengthLaw law{std::log10(64.2) + slope * 0.30, slope};
    EXPECT_NEAR(fraction_for(law, 5.0), 0.735, 0.005);
}

/// snyder2007, gradient equation from memory; numbers invented.
const SolventStrengthLaw kLaw{3.0, 4.0};
const LinearGradient kGradient{0.05, 0.95, 20.0, 0.0, 1.5};

// The source lets the compound rest during the dwell time of 1.0 min, which is then added.
TEST(GradientRetention, MatchesWorkedExample) {
    const GradientRetention retention = gradient_retention(kLaw, kGradient);
    EXPECT_NEAR(retention.time_min + 1.0, 16.915, 0.002);
    EXPECT_NEAR(retention.fraction, 0.699, 0.001);
    EXPECT_EQ(retention.stage, GradientStage::during);
}

/// The same without any formula: the compound moved in steps of 0.6 ms of the composition's time.
double stepped_time(const SolventStrengthLaw &law, const LinearGradient &gradient) {
    constexpr double step_min = 1e-5;
    double passed = 0.0;
    double t = 0.0;
    while (passed < 1.0) {
        const double in_gradient =
            std::clamp((t + step_min / 2 - gradient.dwell_min) / gradient.duration_min, 0.0, 1.0);
        const double fraction =
            gradient.from_fraction + in_gradient * (gradient.to_fraction - gradient.from_fraction);
        passed += step_min /
                  (gradient.hold_up_min * std::pow(10.0, law.log_k_weak - law.slope * fraction));
        t += step_min;
    }
    return t + gradient.hold_up_min;
}

TEST(GradientRetention, AgreesWithACompoundMovedInSmallSteps) {
    struct Case {
        SolventStrengthLaw law;
        LinearGradient gradient;
        GradientStage stage;
    };
    for (const Case &one : {Case{{3.0, 4.0}, {0.05, 0.95, 20.0, 1.0, 1.5}, GradientStage::during},
                            Case{{1.2, 3.0}, {0.05, 0.95, 20.0, 4.0, 1.5}, GradientStage::during},
                            Case{{0.2, 3.0}, {0.05, 0.95, 20.0, 4.0, 1.5}, GradientStage::before},
                            Case{{3.0, 4.0}, {0.05, 0.40, 5.0, 1.0, 1.5}, GradientStage::behind},
                            Case{{1.0, 3.0}, {0.60, 0.20, 10.0, 0.1, 1.5}, GradientStage::during},
                            Case{{2.0, 3.0}, {0.60, 0.20, 3.0, 0.1, 1.5}, GradientStage::behind},
                            Case{{1.0, 0.0}, {0.10, 0.90, 30.0, 0.5, 1.0}, GradientStage::during},
                            Case{{1.0, 3.0}, {0.40, 0.40, 9.0, 0.5, 1.0}, GradientStage::during}}) {
        const GradientRetention retention = gradient_retention(one.law, one.gradient);
        EXPECT_NEAR(retention.time_min, stepped_time(one.law, one.gradient), 5e-4);
        EXPECT_EQ(retention.stage, one.stage);
    }
}

TEST(GradientRetention, WithoutRetentionInTheDwellTimeIsThatOfTheFirstComposition) {
    LinearGradient gradient = kGradient;
    gradient.dwell_min = 30.0;
    const SolventStrengthLaw law{1.0, 4.0};
    const GradientRetention retention = gradient_retention(law, gradient);
    EXPECT_NEAR(retention.time_min, 1.5 * (1.0 + std::pow(10.0, 0.8)), 1e-12);
    EXPECT_EQ(retention.fraction, 0.05);
}

TEST(LinearSolventStrength, RefusesWhatCannotBe) {
    EXPECT_THROW((void)retention_factor_at(kLaw, -0.01), InputError);
    EXPECT_THROW((void)retention_factor_at(kLaw, 1.01), InputError);
    EXPECT_THROW((void)retention_factor_at(kLaw, std::nan("")), InputError);
    EXPECT_THROW((void)fraction_for(kLaw, 0.0), InputError);
    EXPECT_THROW((void)fraction_for({1.0, 0.0}, 2.0), InputError);
    EXPECT_THROW((void)gradient_retention(kLaw, {0.1, 1.2, 20.0, 1.0, 1.5}), InputError);
    EXPECT_THROW((void)gradient_retention(kLaw, {0.1, 0.9, 0.0, 1.0, 1.5}), InputError);
    EXPECT_THROW((void)gradient_retention(kLaw, {0.1, 0.9, 20.0, -1.0, 1.5}), InputError);
    EXPECT_THROW((void)gradient_retention(kLaw, {0.1, 0.9, 20.0, 1.0, 0.0}), InputError);
}

} // namespace
} // namespace cospot::quantities
