#include "quantities/peak_shape.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace cospot::quantities {
namespace {

// harvey2016, read: lemon oil, given there as 1.48.
TEST(Resolution, MatchesLemonOilExample) {
    EXPECT_NEAR(resolution_from_base_widths({8.36, 0.96}, {9.54, 0.64}), 1.475, 0.006);
}

// teachingformulas, read.
TEST(Resolution, MatchesTeachingText) {
    EXPECT_NEAR(resolution_from_base_widths({8.0, 0.1833}, {8.3, 0.2167}), 1.5, 1e-3);
}

// skoog, recomputed: a column of 30.0 cm.
TEST(Resolution, MatchesTextbookColumnOfThirtyCentimetres) {
    EXPECT_NEAR(resolution_from_base_widths({16.40, 1.11}, {17.63, 1.21}), 1.06, 1.06 * 0.005);
}

// teachingformulas, formula read; widths computed from those of the lemon oil.
TEST(Resolution, FromHalfWidthsAgreesWithBaseWidths) {
    EXPECT_NEAR(resolution_from_half_widths({8.36, 0.565}, {9.54, 0.377}), 1.478, 0.01);
}

// teachingformulas, read.
TEST(PlateNumber, MatchesTeachingText) {
    EXPECT_NEAR(plate_number_from_half_width(10.0, 0.235), 10041.0, 2.0);
}

// ettre1993: N = (t_R / sigma)^2, sigma at 0.607 of the height.
TEST(PlateNumber, IsTheSquareOfTheTimeOverTheStandardDeviation) {
    const double sigma = 0.05;
    const double half_width = 2.0 * std::sqrt(2.0 * std::numbers::ln2) * sigma;
    EXPECT_NEAR(plate_number_from_half_width(7.0, half_width), std::pow(7.0 / sigma, 2), 1e-6);
}

// skoog, recomputed: hold-up time 1.30 min, and the plate number 16 (17.63 / 1.21)^2 of the second
// peak, which both then share. From the two base widths the textbook has 1.06; taking the second
// width for both gives (17.63 - 16.40) / 1.21 = 1.017.
TEST(Resolution, FromPlateNumberTakesTheSecondPeaksWidthForBoth) {
    const double k_a = (16.40 - 1.30) / 1.30;
    const double k_b = (17.63 - 1.30) / 1.30;
    const double plates = 16.0 * std::pow(17.63 / 1.21, 2);
    EXPECT_NEAR(resolution_from_plate_number(k_a, k_b, plates), 1.23 / 1.21, 1e-12);
    EXPECT_DOUBLE_EQ(resolution_from_plate_number(k_b, k_a, plates),
                     resolution_from_plate_number(k_a, k_b, plates));
    EXPECT_EQ(resolution_from_plate_number(k_a, k_a, plates), 0.0);
    EXPECT_THROW((void)resolution_from_plate_number(0.0, k_b, plates), InputError);
    EXPECT_THROW((void)resolution_from_plate_number(k_a, k_b, 0.0), InputError);
}

TEST(PeakShape, RefusesWhatNoPeakHas) {
    EXPECT_THROW((void)plate_number_from_half_width(10.0, -0.2), InputError);
    EXPECT_THROW((void)plate_number_from_half_width(0.0, 0.2), InputError);
    EXPECT_THROW((void)plate_number_from_half_width(std::nan(""), 0.2), InputError);
    EXPECT_THROW((void)resolution_from_base_widths({9.54, 0.64}, {8.36, 0.96}), InputError);
    EXPECT_THROW((void)resolution_from_base_widths({8.36, 0.0}, {9.54, 0.64}), InputError);
    EXPECT_THROW((void)resolution_from_half_widths({9.54, 0.64}, {8.36, 0.96}), InputError);
    EXPECT_THROW((void)resolution_from_half_widths({8.36, 0.5}, {9.54, 0.0}), InputError);
}

} // namespace
} // namespace cospot::quantities
