#include "quantities/peak_shape.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace cospot::quantities {
namespace {

// H1: D. Harvey, lemon oil example (read), given there as 1.48.
TEST(Resolution, MatchesLemonOilExample) {
    EXPECT_NEAR(resolution_from_base_widths({8.36, 0.96}, {9.54, 0.64}), 1.475, 0.006);
}

// H2: public teaching text on chromatography formulas (read).
TEST(Resolution, MatchesTeachingText) {
    EXPECT_NEAR(resolution_from_base_widths({8.0, 0.1833}, {8.3, 0.2167}), 1.5, 1e-3);
}

// H19: formula of a public teaching text (read), widths computed from those of H1 (invented).
TEST(Resolution, FromHalfWidthsAgreesWithBaseWidths) {
    EXPECT_NEAR(resolution_from_half_widths({8.36, 0.565}, {9.54, 0.377}), 1.478, 0.01);
}

// H3, H4: public teaching text on chromatography formulas (read).
TEST(PlateNumber, MatchesTeachingText) {
    EXPECT_NEAR(plate_number_from_base_width(10.0, 0.4), 10000.0, 1e-6);
    EXPECT_NEAR(plate_number_from_half_width(10.0, 0.235), 10041.0, 2.0);
}

TEST(PlateNumber, IsTheSameFromBothWidthsOfAGaussianPeak) {
    const double sigma = 0.05;
    const double half_width = 2.0 * std::sqrt(2.0 * std::numbers::ln2) * sigma;
    EXPECT_NEAR(plate_number_from_base_width(7.0, 4.0 * sigma),
                plate_number_from_half_width(7.0, half_width), 1e-6);
}

// H5: public teaching text (read): 25 cm and 10000 plates give 25 um.
TEST(PlateHeight, MatchesTeachingText) {
    EXPECT_NEAR(plate_height_mm(250.0, 10000.0), 0.025, 1e-12);
}

// H11: D. Harvey, Analytical Chemistry 2.1 (from memory): 2.0 m column.
TEST(PlateHeight, MatchesTextbookColumnOfTwoMetres) {
    const double plates = plate_number_from_base_width(8.68, 0.29);
    EXPECT_NEAR(plates, 14334.0, 5.0);
    EXPECT_NEAR(plate_height_mm(2000.0, plates), 0.14, 0.0007);
}

// H12: Skoog, Holler, Crouch, Principles of Instrumental Analysis (from memory): 30.0 cm column.
TEST(PlateHeight, MatchesTextbookColumnOfThirtyCentimetres) {
    const double plates_a = plate_number_from_base_width(16.40, 1.11);
    const double plates_b = plate_number_from_base_width(17.63, 1.21);
    EXPECT_NEAR(resolution_from_base_widths({16.40, 1.11}, {17.63, 1.21}), 1.06, 1.06 * 0.005);
    EXPECT_NEAR(plates_a, 3493.0, 3493.0 * 0.005);
    EXPECT_NEAR(plates_b, 3397.0, 3397.0 * 0.005);
    EXPECT_NEAR(plate_height_mm(300.0, (plates_a + plates_b) / 2.0), 0.087, 0.087 * 0.005);
}

// H12 again: with hold-up time 1.30 min, and the plate number of the second peak, which both then
// share. From the two base widths the textbook has 1.06; taking the second width for both gives
// (17.63 - 16.40) / 1.21 = 1.017.
TEST(Resolution, FromPlateNumberTakesTheSecondPeaksWidthForBoth) {
    const double k_a = (16.40 - 1.30) / 1.30;
    const double k_b = (17.63 - 1.30) / 1.30;
    const double plates = plate_number_from_base_width(17.63, 1.21);
    EXPECT_NEAR(resolution_from_plate_number(k_a, k_b, plates), 1.23 / 1.21, 1e-12);
    EXPECT_DOUBLE_EQ(resolution_from_plate_number(k_b, k_a, plates),
                     resolution_from_plate_number(k_a, k_b, plates));
    EXPECT_EQ(resolution_from_plate_number(k_a, k_a, plates), 0.0);
    EXPECT_THROW((void)resolution_from_plate_number(0.0, k_b, plates), InputError);
    EXPECT_THROW((void)resolution_from_plate_number(k_a, k_b, 0.0), InputError);
}

// H18: USP <621> and Ph. Eur. 2.2.46 (formula read; numbers invented).
TEST(SymmetryFactor, MatchesPharmacopoeiaFormula) {
    EXPECT_NEAR(symmetry_factor(0.30, 0.12), 1.25, 1e-9);
}

TEST(SymmetryFactor, TellsTailingFromFronting) {
    EXPECT_DOUBLE_EQ(symmetry_factor(0.2, 0.1), 1.0);
    EXPECT_GT(symmetry_factor(0.2, 0.06), 1.0);
    EXPECT_LT(symmetry_factor(0.2, 0.15), 1.0);
}

TEST(PeakShape, RefusesWhatNoPeakHas) {
    EXPECT_THROW((void)plate_number_from_base_width(10.0, 0.0), InputError);
    EXPECT_THROW((void)plate_number_from_base_width(0.0, 0.4), InputError);
    EXPECT_THROW((void)plate_number_from_half_width(10.0, -0.2), InputError);
    EXPECT_THROW((void)plate_number_from_half_width(std::nan(""), 0.2), InputError);
    EXPECT_THROW((void)plate_height_mm(0.0, 1000.0), InputError);
    EXPECT_THROW((void)plate_height_mm(250.0, 0.0), InputError);
    EXPECT_THROW((void)resolution_from_base_widths({9.54, 0.64}, {8.36, 0.96}), InputError);
    EXPECT_THROW((void)resolution_from_base_widths({8.36, 0.0}, {9.54, 0.64}), InputError);
    EXPECT_THROW((void)resolution_from_half_widths({9.54, 0.64}, {8.36, 0.96}), InputError);
    EXPECT_THROW((void)resolution_from_half_widths({8.36, 0.5}, {9.54, 0.0}), InputError);
    EXPECT_THROW((void)symmetry_factor(0.3, 0.0), InputError);
    EXPECT_THROW((void)symmetry_factor(0.3, 0.3), InputError);
    EXPECT_THROW((void)symmetry_factor(0.0, 0.1), InputError);
}

} // namespace
} // namespace cospot::quantities
