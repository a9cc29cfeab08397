#include "signal/peak_edits.h"
#include "signal/peak_finder.h"

#include "generated_trace.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace cospot::signal {
namespace {

/// Peaks, white noise of deviation 1, and a baseline, on an axis from 0 to 400.
template <typename Baseline>
GeneratedTrace on_baseline(std::uint64_t seed, const std::vector<ExponentialGaussian> &peaks,
                           const Baseline &baseline) {
    TraceRecipe recipe;
    recipe.drift = 0.0;
    recipe.seed = seed;
    GeneratedTrace trace = generated(recipe);
    trace.peaks = peaks;
    for (std::size_t i = 0; i < trace.x.size(); ++i) {
        trace.y[i] += baseline(trace.x[i]);
        for (const ExponentialGaussian &peak : peaks) {
            trace.y[i] += height_at(peak, trace.x[i]);
        }
    }
    return trace;
}

ExponentialGaussian narrow_peak(double mean, double height, double tau = 0.8) {
    return of_height({.area = 1.0, .mean = mean, .sigma = 0.8, .tau = tau}, height);
}

double flat(double /*x*/) {
    return 0.0;
}

/// A hump ten times as wide as the peaks, on which the baseline of a whole trace cannot climb.
double hump(double x) {
    return 60.0 * std::exp(-0.5 * std::pow((x - 200.0) / 12.0, 2));
}

const FoundPeak &peak_near(const FoundPeaks &found, double x) {
    return *std::min_element(found.peaks.begin(), found.peaks.end(),
                             [&](const FoundPeak &a, const FoundPeak &b) {
                                 return std::abs(a.apex - x) < std::abs(b.apex - x);
                             });
}

TEST(LocalBaseline, MeasuresANarrowPeakOnTheFlankOfAHump) {
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
        const GeneratedTrace trace = on_baseline(
            seed, {narrow_peak(80.0, 600.0), narrow_peak(216.0, 1500.0), narrow_peak(320.0, 600.0)},
            hump);
        const FoundPeaks found = find_peaks(trace.x, trace.y);
        for (const ExponentialGaussian &truth : trace.peaks) {
            EXPECT_NEAR(peak_near(found, apex_of(truth)).area, truth.area, 0.03 * truth.area)
                << seed;
        }
    }
}

TEST(LocalBaseline, IsReturnedAsItWasUsed) {
    const GeneratedTrace trace = on_baseline(
        3, {narrow_peak(80.0, 600.0), narrow_peak(216.0, 1500.0), narrow_peak(320.0, 600.0)}, hump);
    const FoundPeaks found = find_peaks(trace.x, trace.y);
    ASSERT_FALSE(found.lines.empty());
    for (const BaselineLine &line : found.lines) { // straight
        const std::size_t last = line.under.end - 1;
        const std::size_t middle = (line.under.begin + last) / 2;
        const double share = (trace.x[middle] - trace.x[line.under.begin]) /
                             (trace.x[last] - trace.x[line.under.begin]);
        EXPECT_NEAR(found.baseline[middle],
                    found.baseline[line.under.begin] +
                        share * (found.baseline[last] - found.baseline[line.under.begin]),
                    1e-9);
    }
    for (const FoundPeak &peak : found.peaks) { // and the area is that above it
        double area = 0.0;
        for (std::size_t i = point_at(trace.x, peak.start); i < point_at(trace.x, peak.end); ++i) {
            area += 0.5 * (trace.x[i + 1] - trace.x[i]) *
                    (trace.y[i] - found.baseline[i] + trace.y[i + 1] - found.baseline[i + 1]);
        }
        EXPECT_NEAR(area, peak.area, 1e-6 * std::abs(peak.area));
    }
}

TEST(LocalBaseline, EditsMeasureOnIt) {
    const GeneratedTrace trace = on_baseline(
        3, {narrow_peak(80.0, 600.0), narrow_peak(216.0, 1500.0), narrow_peak(320.0, 600.0)}, hump);
    const FoundPeaks found = find_peaks(trace.x, trace.y);
    const FoundPeak &peak = peak_near(found, 216.5);
    const FoundPeaks split = split_peak(found, trace.x, trace.y, peak.apex);
    EXPECT_EQ(split.baseline, found.baseline);
    double area = 0.0;
    for (const FoundPeak &part : split.peaks) {
        area += part.start >= peak.start && part.end <= peak.end ? part.area : 0.0;
    }
    EXPECT_NEAR(area, peak.area, 1e-6 * peak.area);
}

TEST(LocalBaseline, LongTailsKeepTheirArea) {
    for (const double tau : {0.8, 1.6, 2.4, 4.0}) { // up to five sigma
        double error = 0.0;
        for (std::uint64_t seed = 1; seed <= 10; ++seed) {
            const GeneratedTrace trace =
                on_baseline(seed,
                            {narrow_peak(80.0, 300.0), narrow_peak(200.0, 1000.0, tau),
                             narrow_peak(320.0, 300.0)},
                            flat);
            const FoundPeaks found = find_peaks(trace.x, trace.y);
            error += peak_near(found, apex_of(trace.peaks[1])).area / trace.peaks[1].area - 1.0;
        }
        EXPECT_NEAR(error / 10.0, 0.0, 0.005) << tau;
    }
}

TEST(LocalBaseline, ACutOffPeakKeepsThatOfTheWholeTrace) {
    const GeneratedTrace trace = on_baseline(
        2, {narrow_peak(80.0, 600.0), narrow_peak(200.0, 600.0), narrow_peak(320.0, 600.0)}, flat);
    const std::size_t cut = point_at(trace.x, 322.0);
    const FoundPeaks found =
        find_peaks(std::span(trace.x).first(cut), std::span(trace.y).first(cut));
    ASSERT_TRUE(peak_near(found, 320.5).is_cut_off);
    for (const BaselineLine &line : found.lines) {
        EXPECT_LT(line.under.end, cut);
    }
}

} // namespace
} // namespace cospot::signal
