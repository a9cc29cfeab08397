#include "signal/peak_finder.h"

#include "generated_trace.h"
#include "shared/error.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace cospot::signal {
namespace {

constexpr NoiseKind kAllKinds[] = {NoiseKind::kWhite, NoiseKind::kPink, NoiseKind::kFiltered};

const FoundPeak *nearest(const FoundPeaks &found, double x) {
    const auto best = std::min_element(found.peaks.begin(), found.peaks.end(),
                                       [&](const FoundPeak &a, const FoundPeak &b) {
                                           return std::abs(a.apex - x) < std::abs(b.apex - x);
                                       });
    return best == found.peaks.end() ? nullptr : &*best;
}

GeneratedTrace with_noise(std::uint64_t seed, NoiseKind kind,
                          const std::vector<ExponentialGaussian> &peaks, double drift) {
    TraceRecipe recipe;
    recipe.seed = seed;
    recipe.kind = kind;
    recipe.drift = drift;
    GeneratedTrace trace = generated(recipe);
    trace.peaks = peaks;
    for (std::size_t i = 0; i < trace.x.size(); ++i) {
        for (const ExponentialGaussian &peak : peaks) {
            trace.y[i] += height_at(peak, trace.x[i]);
        }
    }
    return trace;
}

std::vector<ExponentialGaussian> four_peaks(double height) {
    std::vector<ExponentialGaussian> peaks;
    for (const double mean : {60.0, 130.0, 220.0, 330.0}) {
        peaks.push_back(of_height(
            {.area = 1.0, .mean = mean, .sigma = 0.6 + mean / 300.0, .tau = mean / 300.0}, height));
    }
    return peaks;
}

// The trial (signal_trial.cpp) counts 100 traces of each kind; these are other seeds.
TEST(FindPeaks, FindsNothingInDriftAndNoise) {
    int with_peak = 0;
    for (const NoiseKind kind : kAllKinds) {
        for (std::uint64_t seed = 500; seed < 520; ++seed) {
            TraceRecipe recipe;
            recipe.seed = seed;
            recipe.kind = kind;
            const GeneratedTrace trace = generated(recipe);
            with_peak += find_peaks(trace.x, trace.y).peaks.empty() ? 0 : 1;
        }
    }
    EXPECT_LE(with_peak, 3); // of 60
}

TEST(FindPeaks, FindsAndMeasuresPeaksOnDriftInNoiseOfEachKind) {
    int covered = 0;
    std::size_t found_at_all = 0;
    for (const NoiseKind kind : kAllKinds) {
        for (std::uint64_t seed = 1; seed <= 10; ++seed) {
            const GeneratedTrace trace = with_noise(seed, kind, four_peaks(200.0), 100.0);
            const FoundPeaks found = find_peaks(trace.x, trace.y);
            found_at_all += found.peaks.size();
            for (const ExponentialGaussian &truth : trace.peaks) {
                const FoundPeak *peak = nearest(found, apex_of(truth));
                ASSERT_NE(peak, nullptr);
                const double error = std::abs(peak->apex - apex_of(truth));
                EXPECT_LT(error, 0.03 * half_width_of(truth));
                EXPECT_NEAR(peak->half_width, half_width_of(truth), 0.06 * half_width_of(truth));
                EXPECT_NEAR(peak->area, truth.area, 0.1 * truth.area);
                covered += error <= 1.96 * peak->apex_uncertainty ? 1 : 0;
            }
        }
    }
    EXPECT_LE(found_at_all, 122U); // of 120
    EXPECT_GE(covered, 106);       // 114 are expected; fewer than 106 in 1 of 1000 trials
}

TEST(FindPeaks, ReadsTheNoiseAsItIsLeftBySmoothing) {
    for (const NoiseKind kind : kAllKinds) {
        const GeneratedTrace trace = with_noise(3, kind, four_peaks(200.0), 0.0);
        const FoundPeaks found = find_peaks(trace.x, trace.y);
        EXPECT_NEAR(found.noise.recorded, 1.0, kind == NoiseKind::kPink ? 0.4 : 0.12);
        if (kind == NoiseKind::kWhite) { // points that know nothing of each other average out
            EXPECT_LT(found.noise.deviation, 0.5);
        } else {
            EXPECT_GT(found.noise.deviation, 0.5);
        }
    }
}

TEST(FindPeaks, TellsSignalToNoiseAsPharmacopoeiasDo) {
    const GeneratedTrace trace = with_noise(4, NoiseKind::kWhite, four_peaks(300.0), 0.0);
    for (const FoundPeak &peak : find_peaks(trace.x, trace.y).peaks) {
        EXPECT_NEAR(peak.noise_half_widths, 20.0, 0.5);
        // pheur2246: 2 H / h; the range of 300 to 800 normal values is 5.5 to 6.6 deviations.
        EXPECT_NEAR(peak.signal_to_noise.value(), 600.0 / 6.2, 20.0);
    }
}

TEST(FindPeaks, TakesAnUnevenAxis) {
    TraceRecipe recipe;
    recipe.uneven = true;
    recipe.seed = 12;
    GeneratedTrace trace = generated(recipe);
    const auto peaks = four_peaks(200.0);
    for (std::size_t i = 0; i < trace.x.size(); ++i) {
        for (const auto &peak : peaks) {
            trace.y[i] += height_at(peak, trace.x[i]);
        }
    }
    const FoundPeaks found = find_peaks(trace.x, trace.y);
    ASSERT_EQ(found.peaks.size(), 4U);
    for (std::size_t k = 0; k < 4; ++k) {
        EXPECT_NEAR(found.peaks[k].apex, apex_of(peaks[k]), 0.02 * half_width_of(peaks[k]));
        EXPECT_NEAR(found.peaks[k].area, peaks[k].area, 0.02 * peaks[k].area);
    }
}

TEST(FindPeaks, ReplacesSpikesAndTellsWhere) {
    GeneratedTrace trace = with_noise(5, NoiseKind::kWhite, four_peaks(200.0), 50.0);
    trace.y[1000] += 300.0;
    trace.y[2600] -= 300.0;
    trace.y[2601] -= 310.0;
    const FoundPeaks found = find_peaks(trace.x, trace.y);
    EXPECT_EQ(found.peaks.size(), 4U);
    EXPECT_EQ(found.spikes, (std::vector<std::size_t>{1000, 2600, 2601}));
}

TEST(FindPeaks, IsNotDrawnByADip) {
    auto peaks = four_peaks(200.0);
    peaks.push_back(of_height({.area = 1.0, .mean = 175.0, .sigma = 1.0, .tau = 0.0}, -150.0));
    const GeneratedTrace trace = with_noise(6, NoiseKind::kWhite, peaks, 50.0);
    const FoundPeaks found = find_peaks(trace.x, trace.y);
    ASSERT_EQ(found.peaks.size(), 4U);
    for (std::size_t k = 0; k < 4; ++k) {
        EXPECT_NEAR(found.peaks[k].area, peaks[k].area, 0.03 * peaks[k].area);
    }
}

TEST(FindPeaks, MarksSaturatedAndCutOffPeaks) {
    GeneratedTrace trace = with_noise(7, NoiseKind::kWhite, four_peaks(200.0), 0.0);
    for (std::size_t i = 0; i < trace.x.size(); ++i) { // the second peak is clipped
        trace.y[i] =
            trace.x[i] > 100.0 && trace.x[i] < 160.0 ? std::min(trace.y[i], 120.0) : trace.y[i];
    }
    const std::size_t cut = 3345; // at 334.5, behind the last apex
    const FoundPeaks found =
        find_peaks(std::span(trace.x).first(cut), std::span(trace.y).first(cut));
    ASSERT_GE(found.peaks.size(), 4U);
    const FoundPeak &clipped = *nearest(found, apex_of(trace.peaks[1]));
    EXPECT_FALSE(nearest(found, apex_of(trace.peaks[0]))->is_saturated);
    EXPECT_TRUE(clipped.is_saturated);
    EXPECT_FALSE(nearest(found, apex_of(trace.peaks[2]))->is_cut_off);
    EXPECT_TRUE(nearest(found, apex_of(trace.peaks[3]))->is_cut_off);
    EXPECT_LE(std::abs(clipped.apex - apex_of(trace.peaks[1])), 1.96 * clipped.apex_uncertainty);
}

TEST(FindPeaks, TellsAShoulderFromAMaximum) {
    const std::vector<ExponentialGaussian> pair{
        of_height({.area = 1.0, .mean = 200.0, .sigma = 1.5, .tau = 0.0}, 300.0),
        of_height({.area = 1.0, .mean = 204.0, .sigma = 1.5, .tau = 0.0}, 100.0)};
    const GeneratedTrace trace = with_noise(8, NoiseKind::kWhite, pair, 20.0);
    const FoundPeaks found = find_peaks(trace.x, trace.y);
    ASSERT_EQ(found.peaks.size(), 2U);
    EXPECT_FALSE(found.peaks[0].is_shoulder);
    EXPECT_TRUE(found.peaks[0].shares_end);
    EXPECT_TRUE(found.peaks[1].is_shoulder);
    EXPECT_TRUE(found.peaks[1].shares_area());
    EXPECT_NEAR(found.peaks[1].apex, 204.0, 1.96 * found.peaks[1].apex_uncertainty);
    FinderSettings without;
    without.shoulders = false;
    EXPECT_EQ(find_peaks(trace.x, trace.y, without).peaks.size(), 1U);
}

TEST(FindPeaks, UsesAndReturnsSettings) {
    const GeneratedTrace trace = with_noise(9, NoiseKind::kWhite, four_peaks(200.0), 20.0);
    FinderSettings settings;
    settings.threshold = 2000.0;
    settings.baseline_period = 123.0;
    settings.narrowest_half_width = 2.0;
    settings.smoothing_period = 1.0;
    const FoundPeaks found = find_peaks(trace.x, trace.y, settings);
    EXPECT_TRUE(found.peaks.empty());
    EXPECT_EQ(found.used.threshold, 2000.0);
    EXPECT_EQ(found.used.baseline_period, 123.0);
    EXPECT_EQ(found.used.narrowest_half_width, 2.0);
    EXPECT_EQ(found.used.smoothing_period, 1.0);
    const FoundPeaks by_itself = find_peaks(trace.x, trace.y);
    EXPECT_TRUE(by_itself.used.widths_seen);
    EXPECT_NEAR(by_itself.used.narrowest_half_width, half_width_of(trace.peaks[0]), 0.3);
    ASSERT_NE(nearest(by_itself, 330.0), nullptr);
}

TEST(FindPeaks, RefusesWhatIsNoTrace) {
    const std::vector<double> rising{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11};
    std::vector<double> values(12, 1.0);
    EXPECT_TRUE(find_peaks(rising, values).peaks.empty());
    EXPECT_THROW((void)find_peaks(std::span(rising).first(11), values), InputError);
    EXPECT_THROW((void)find_peaks(std::span(rising).first(9), std::span(values).first(9)),
                 InputError);
    std::vector<double> back = rising;
    back[5] = 4.0;
    EXPECT_THROW((void)find_peaks(back, values), InputError);
    values[3] = std::numeric_limits<double>::quiet_NaN();
    EXPECT_THROW((void)find_peaks(rising, values), InputError);
    values[3] = 1.0;
    FinderSettings settings;
    settings.baseline_period = -1.0;
    EXPECT_THROW((void)find_peaks(rising, values, settings), InputError);
}

} // namespace
} // namespace cospot::signal
