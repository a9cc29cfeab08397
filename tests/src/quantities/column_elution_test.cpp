#include "quantities/column_elution.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace cospot::quantities {
namespace {

// teachingflash: pairs of R_F read, their column volumes recomputed as 1/R_F.
TEST(ColumnVolumes, MatchTeachingPage) {
    EXPECT_NEAR(column_volumes(0.35), 2.857, 0.001);
    EXPECT_NEAR(column_volumes(0.40), 2.5, 0.001);
    EXPECT_NEAR(column_volumes(0.35) - column_volumes(0.40), 0.357, 0.001);
    EXPECT_NEAR(column_volumes(0.15), 6.667, 0.001);
    EXPECT_NEAR(column_volumes(0.15) - column_volumes(0.20), 1.667, 0.001);
}

// teachingformulas, read: k 1.5 at R_F 0.40.
TEST(ColumnVolumes, AreOnePlusTheRetentionFactor) {
    EXPECT_NEAR(column_volumes(0.40), 1.0 + 1.5, 1e-9);
}

TEST(ColumnVolumes, HaveNoValueAtStartAndFront) {
    for (const double rf : {0.0, 1.0, -0.1, 1.1, std::numeric_limits<double>::quiet_NaN()}) {
        EXPECT_THROW((void)column_volumes(rf), InputError) << rf;
    }
}

// yorkflash, read: 50 g of silica in a column of 25 mm. At 0.5 g/mL that is a bed of 204 mm, worked
// by hand.
TEST(SilicaMass, FitsTheLoadingExample) {
    EXPECT_NEAR(silica_mass_g({25.0, 203.7}), 50.0, 0.01);
}

TEST(Bed, VolumesOfACylinder) {
    EXPECT_NEAR(bed_volume_ml({20.0, 150.0}), 47.124, 0.001); // pi * 1 cm2 * 15 cm
    EXPECT_NEAR(hold_up_of_silica_ml(silica_mass_g({20.0, 150.0})), 0.8 * 47.124, 0.001);
    EXPECT_THROW((void)hold_up_of_silica_ml(0.0), InputError);
    EXPECT_THROW((void)bed_volume_ml({0.0, 150.0}), InputError);
    EXPECT_THROW((void)bed_volume_ml({20.0, -1.0}), InputError);
}

TEST(ElutedBand, HasTheWidthThatThePlateNumberSays) {
    const ElutedBand band = eluted_band(4.0, 50.0, 100.0, 0.0);
    EXPECT_DOUBLE_EQ(band.volume_ml, 200.0);
    EXPECT_DOUBLE_EQ(band.sigma_ml, 20.0);
}

// jcgm100, 4.3.7: the variance of a rectangular plug is that of the uniform distribution, a^2 / 3
// with half-width a.
TEST(ElutedBand, ALargeLoadMovesAndWidensIt) {
    const ElutedBand band = eluted_band(4.0, 50.0, 100.0, 60.0);
    EXPECT_DOUBLE_EQ(band.volume_ml, 230.0);
    EXPECT_DOUBLE_EQ(band.sigma_ml, std::sqrt(400.0 + 30.0 * 30.0 / 3.0));
}

TEST(ElutedBand, RefusesWhatNoColumnHas) {
    EXPECT_THROW((void)eluted_band(0.0, 50.0, 100.0, 0.0), InputError);
    EXPECT_THROW((void)eluted_band(4.0, 0.0, 100.0, 0.0), InputError);
    EXPECT_THROW((void)eluted_band(4.0, 50.0, 0.0, 0.0), InputError);
    EXPECT_THROW((void)eluted_band(4.0, 50.0, 100.0, -1.0), InputError);
}

// snyder1988, from memory: the plates of an overloaded band are N_0 / N = 1 + 3/8 N_0 (k/(1+k))^2
// w_x/w_s. N_0 150, k 3 and a tenth of the capacity leave 36.0 plates, worked by hand.
TEST(Overload, LeavesAsManyPlatesAsPublished) {
    const ElutedBand unloaded = eluted_band(4.0, 50.0, 150.0, 0.0);
    const double variance =
        unloaded.sigma_ml * unloaded.sigma_ml + overload_variance(3.0 * 50.0, 0.1);
    EXPECT_NEAR(unloaded.volume_ml * unloaded.volume_ml / variance, 36.0, 0.05);
    EXPECT_THROW((void)overload_variance(10.0, 1.5), InputError);
    EXPECT_THROW((void)overload_variance(-1.0, 0.5), InputError);
}

// harvey2016, read: 8.36 and 9.54 min, base widths 0.96 and 0.64 min, given as 1.48. Volume and
// time are proportional at constant flow.
TEST(Resolution, MatchesTextbook) {
    const ElutedBand first{8.36, 0.96 / 4.0};
    const ElutedBand second{9.54, 0.64 / 4.0};
    EXPECT_NEAR(resolution(first, second), 1.475, 0.001);
    EXPECT_DOUBLE_EQ(resolution(first, second), resolution(second, first));
    EXPECT_THROW((void)resolution({1.0, 0.0}, second), InputError);
}

} // namespace
} // namespace cospot::quantities
