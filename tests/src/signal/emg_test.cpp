#include "signal/emg.h"

#include "generated_trace.h"
#include "quantities/peak_shape.h"
#include "signal/peak_measures.h"
#include "signal/peak_places.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

namespace cospot::signal {
namespace {

/// Figures of a peak with mean 100 and sigma 1 (recomputed: emgtable; A_s and N by the formulas of
/// pheur2246).
struct EmgRow {
    double tau, apex, half_width, symmetry, tailing_at_tenth, plates, foley_dorsey;
};
constexpr std::array kEmgRows{
    EmgRow{0.0, 100.0000, 2.3548, 1.0000, 1.0000, 9990.7, 10061.2},
    EmgRow{0.5, 100.4281, 2.5589, 1.0572, 1.0929, 8533.5, 8000.1},
    EmgRow{1.0, 100.6974, 2.8909, 1.2282, 1.3622, 6721.8, 5047.0},
    EmgRow{2.0, 101.0179, 3.5865, 1.6481, 2.0556, 4395.1, 2054.6},
    EmgRow{3.0, 101.2154, 4.3003, 2.0698, 2.7660, 3069.1, 1010.5},
};

/// The table's plate numbers are with 5.54, which pharmacopoeias print for 8 ln 2.
constexpr double kPrintedFactor = 5.54 / (8.0 * std::numbers::ln2);

ExponentialGaussian tailing(double tau) {
    return {.area = 1.0, .mean = 100.0, .sigma = 1.0, .tau = tau};
}

TEST(Emg, HasTheApexAndWidthsOfTheTable) {
    for (const EmgRow &row : kEmgRows) {
        const ExponentialGaussian peak = tailing(row.tau);
        const double apex = apex_of(peak);
        EXPECT_NEAR(apex, row.apex, 6e-5);
        EXPECT_NEAR(half_width_of(peak), row.half_width, 6e-5);
        const Crossings low = crossings_of(peak, 0.05);
        EXPECT_NEAR((low.after - low.before) / (2.0 * (apex - low.before)), row.symmetry, 6e-5);
        const Crossings tenth = crossings_of(peak, 0.1);
        const double tailing_at_tenth = (tenth.after - apex) / (apex - tenth.before);
        EXPECT_NEAR(tailing_at_tenth, row.tailing_at_tenth, 6e-5);
        // foley1983, from memory: N = 41.7 (t / w_0.1)^2 / (B/A + 1.25).
        EXPECT_NEAR(41.7 * std::pow(apex / (tenth.after - tenth.before), 2) /
                        (tailing_at_tenth + 1.25),
                    row.foley_dorsey, 0.06);
        EXPECT_NEAR(kPrintedFactor *
                        quantities::plate_number_from_half_width(apex, half_width_of(peak)),
                    row.plates, 0.06);
    }
}

// Moments of the sum of a normal and an exponential variable: mean + tau, sigma^2 + tau^2.
TEST(Emg, HasTheMomentsOfItsParts) {
    const ExponentialGaussian peak = tailing(2.0);
    double area = 0.0;
    double first = 0.0;
    double second = 0.0;
    for (double x = 85.0; x < 160.0; x += 0.01) {
        const double y = 0.01 * height_at(peak, x);
        area += y;
        first += y * x;
        second += y * x * x;
    }
    EXPECT_NEAR(area, 1.0, 1e-9);
    EXPECT_NEAR(first, 102.0, 1e-6);
    EXPECT_NEAR(second - first * first, 5.0, 1e-4);
}

TEST(Emg, IsSmoothWhereItsFormsMeetAndWhereTheDecayVanishes) {
    for (const double tau : {1e-12, 1e-8, 1e-4, 0.01, 0.04}) {
        const ExponentialGaussian peak = tailing(tau);
        for (const double x : {90.0, 98.0, 99.99, 100.5, 101.0 / tau > 1e6 ? 103.0 : 140.0}) {
            const double gaussian =
                std::exp(-0.5 * std::pow(x - 100.0 - tau, 2)) / std::sqrt(2.0 * std::numbers::pi);
            EXPECT_TRUE(std::isfinite(height_at(peak, x)));
            EXPECT_NEAR(height_at(peak, x), gaussian, 1e-3 * gaussian + 2.0 * tau * tau)
                << tau << " " << x;
        }
    }
    EXPECT_NEAR(scaled_erfc(24.999999) / scaled_erfc(25.000001), 25.000001 / 24.999999, 1e-9);
}

TEST(Emg, SlopeIsThatOfItsHeight) {
    for (const double tau : {0.0, 1e-6, 0.3, 2.0}) {
        const ExponentialGaussian peak = tailing(tau);
        for (const double x : {97.0, 99.5, 101.0, 104.0}) {
            const double slope = (height_at(peak, x + 1e-5) - height_at(peak, x - 1e-5)) / 2e-5;
            EXPECT_NEAR(slope_at(peak, x), slope, 1e-6);
        }
    }
}

/// A trace without noise on a baseline of zero.
CorrectedTrace clean_trace(const GeneratedTrace &drawn_trace, double half_width) {
    CorrectedTrace trace;
    trace.x = drawn_trace.x;
    trace.raw = drawn_trace.y;
    trace.recorded = drawn_trace.y;
    trace.smoothed = drawn_trace.y;
    trace.level.assign(trace.recorded.size(), 1.0);
    trace.free = trace.level;
    trace.noise.deviation = 1e-9;
    trace.noise.recorded = 1e-9;
    trace.noise.covariance = {1e-18};
    trace.noise.bin = drawn_trace.x[1] - drawn_trace.x[0];
    trace.used = {.narrowest_half_width = half_width,
                  .widest_half_width = half_width,
                  .baseline_period = 20.0 * half_width,
                  .baseline_widths = 20.0,
                  .smoothing_period = half_width,
                  .threshold = 4.5,
                  .widths_seen = true};
    return trace;
}

std::vector<FoundPeak> measured_on(const CorrectedTrace &trace) {
    return measure_peaks(trace, find_places(trace.x, trace.smoothed, trace.free,
                                            trace.noise.deviation, trace.used, false));
}

// The same table, measured on 24 to 43 points a half width.
TEST(PeakMeasures, GiveTheFiguresOfTheTable) {
    for (const EmgRow &row : kEmgRows) {
        const GeneratedTrace drawn_trace =
            drawn({of_height(tailing(row.tau), 1.0)}, 80.0, 0.1, 900);
        const auto peaks = measured_on(clean_trace(drawn_trace, row.half_width));
        ASSERT_EQ(peaks.size(), 1U);
        const FoundPeak &peak = peaks.front();
        EXPECT_NEAR(peak.apex, row.apex, 0.0005 * row.half_width);
        EXPECT_NEAR(peak.height, 1.0, 0.0005);
        EXPECT_NEAR(peak.half_width, row.half_width, 0.0015 * row.half_width);
        EXPECT_NEAR(peak.symmetry.value(), row.symmetry, 0.004 * row.symmetry);
        EXPECT_NEAR(kPrintedFactor * peak.plate_number.value(), row.plates, 0.003 * row.plates);
        EXPECT_NEAR(peak.area, drawn_trace.peaks[0].area, 0.002 * peak.area);
    }
}

/// Two Gaussians of sigma 1 this far apart, the second of height 1 (recomputed: emgtable).
struct PairRow {
    double distance, peak_to_valley_even, peak_to_valley_ten, error_of_small;
};
constexpr std::array kPairRows{
    PairRow{4.0, 3.696, 1.465, -0.0847},
    PairRow{5.0, 11.380, 4.084, -0.0141},
    PairRow{6.0, 45.009, 15.463, -0.0021},
    PairRow{8.0, 1490.0, 493.0, 0.0},
};

TEST(PeakMeasures, GiveThePeakToValleyRatioAndTheErrorOfThePerpendicularDrop) {
    const double area = std::sqrt(2.0 * std::numbers::pi);
    for (const PairRow &row : kPairRows) {
        for (const double ratio : {1.0, 10.0}) {
            const GeneratedTrace drawn_trace =
                drawn({{.area = ratio * area, .mean = 20.0, .sigma = 1.0, .tau = 0.0},
                       {.area = area, .mean = 20.0 + row.distance, .sigma = 1.0, .tau = 0.0}},
                      0.0, 0.002, 25000);
            const auto peaks = measured_on(clean_trace(drawn_trace, 2.3548));
            ASSERT_EQ(peaks.size(), 2U);
            const double expected = ratio > 1.0 ? row.peak_to_valley_ten : row.peak_to_valley_even;
            EXPECT_NEAR(peaks[0].peak_to_valley_to_next.value(), expected, 0.002 * expected);
            EXPECT_NEAR(peaks[0].resolution_to_next.value(), 1.18 * row.distance / (2.0 * 2.3548),
                        row.distance < 5.0 ? 0.03 : 0.005); // the valley widens the half widths
            if (ratio > 1.0) {
                EXPECT_NEAR(peaks[1].area / area - 1.0, row.error_of_small, 0.0005);
            }
        }
    }
}

} // namespace
} // namespace cospot::signal
