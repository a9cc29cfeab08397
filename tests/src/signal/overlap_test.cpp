#include "signal/emg_fit.h"
#include "signal/peak_edits.h"
#include "signal/peak_finder.h"
#include "signal/tangent_skim.h"

#include "generated_trace.h"
#include "shared/error.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <string>

namespace cospot::signal {
namespace {

/// Peaks with a little white noise (deviation 1) on an axis from 0 to 400.
GeneratedTrace noisy(const std::vector<ExponentialGaussian> &peaks) {
    TraceRecipe recipe;
    recipe.drift = 0.0;
    recipe.seed = 21;
    GeneratedTrace trace = generated(recipe);
    trace.peaks = peaks;
    for (std::size_t i = 0; i < trace.x.size(); ++i) {
        for (const ExponentialGaussian &peak : peaks) {
            trace.y[i] += height_at(peak, trace.x[i]);
        }
    }
    return trace;
}

ExponentialGaussian peak_at(double mean, double height, double tau = 0.0) {
    return of_height({.area = 1.0, .mean = mean, .sigma = 1.5, .tau = tau}, height);
}

TEST(FitGroups, GivesAreasThatThePerpendicularDropCannot) {
    const GeneratedTrace trace =
        noisy({peak_at(200.0, 1000.0, 1.5), peak_at(207.0, 120.0, 1.5), peak_at(320.0, 400.0)});
    const FoundPeaks found = find_peaks(trace.x, trace.y);
    ASSERT_EQ(found.peaks.size(), 3U);
    const auto fits = fit_groups(found, trace.x, trace.y);
    ASSERT_EQ(fits.size(), 1U);
    ASSERT_EQ(fits[0].outcome, FitOutcome::kFitted);
    EXPECT_NEAR(fits[0].residual, 1.0, 0.3);
    const FoundPeaks fitted = with_fits(found, fits);
    const double area = trace.peaks[1].area;
    EXPECT_GT(std::abs(found.peaks[1].area - area), 0.05 * area);
    EXPECT_NEAR(fitted.peaks[1].area, area, 0.02 * area);
    EXPECT_NEAR(fitted.peaks[1].apex, apex_of(trace.peaks[1]), 0.1);
    EXPECT_NEAR(fitted.peaks[0].half_width, half_width_of(trace.peaks[0]), 0.02);
}

TEST(FitGroups, SaysWhyItDidNotFit) {
    GeneratedTrace trace =
        noisy({peak_at(200.0, 1000.0), peak_at(209.0, 700.0), peak_at(320.0, 400.0)});
    for (double &value : trace.y) {
        value = std::min(value, 500.0);
    }
    FoundPeaks found = find_peaks(trace.x, trace.y);
    ASSERT_GE(found.peaks.size(), 2U);
    const auto fits = fit_groups(found, trace.x, trace.y);
    ASSERT_EQ(fits.size(), 1U);
    EXPECT_EQ(fits[0].outcome, FitOutcome::kSaturated);
    EXPECT_TRUE(fits[0].peaks.empty());
    EXPECT_EQ(with_fits(found, fits).peaks[0].area, found.peaks[0].area);
    for (FoundPeak &peak : found.peaks) { // a clipped top is no such peak, whoever says so
        peak.is_saturated = false;
    }
    EXPECT_NE(fit_groups(found, trace.x, trace.y)[0].outcome, FitOutcome::kFitted);
}

TEST(SkimRiders, PartsARiderFromTheTailBelow) {
    const GeneratedTrace trace =
        noisy({of_height({.area = 1.0, .mean = 150.0, .sigma = 1.5, .tau = 12.0}, 2000.0),
               peak_at(180.0, 100.0), peak_at(320.0, 400.0)});
    const FoundPeaks found = find_peaks(trace.x, trace.y);
    ASSERT_EQ(found.peaks.size(), 3U);
    const FoundPeaks skimmed = skim_riders(found, trace.x, trace.y);
    const double area = trace.peaks[1].area;
    EXPECT_GT(found.peaks[1].area, 2.0 * area); // the drop gives it the tail
    // The line cuts off the rider's feet: too small, but by far less than the drop is too large.
    EXPECT_GT(skimmed.peaks[1].area, 0.6 * area);
    EXPECT_LT(skimmed.peaks[1].area, area);
    EXPECT_NEAR(skimmed.peaks[0].area + skimmed.peaks[1].area,
                found.peaks[0].area + found.peaks[1].area, 1e-6);
    EXPECT_EQ(skim_riders(found, trace.x, trace.y, 1000.0).peaks[1].area, found.peaks[1].area);
    EXPECT_THROW((void)skim_riders(found, trace.x, trace.y, 0.5), InputError);
}

class PeakEdits : public testing::Test {
protected:
    GeneratedTrace trace_ = noisy({peak_at(100.0, 300.0), peak_at(200.0, 300.0),
                                   peak_at(206.0, 200.0), peak_at(300.0, 300.0)});
    FoundPeaks found_ = find_peaks(trace_.x, trace_.y);

    void SetUp() override { ASSERT_EQ(found_.peaks.size(), 4U); }
};

TEST_F(PeakEdits, DropLeavesTheOthersAsTheyAre) {
    const FoundPeaks less = drop_peak(found_, trace_.x, trace_.y, 206.3);
    ASSERT_EQ(less.peaks.size(), 3U);
    EXPECT_EQ(less.peaks[1].end, found_.peaks[1].end);
    EXPECT_FALSE(less.peaks[1].shares_end);
    EXPECT_NEAR(less.peaks[1].area, found_.peaks[1].area, 1e-9);
    EXPECT_EQ(less.peaks[0].area, found_.peaks[0].area);
    EXPECT_EQ(less.peaks[2].signal_to_noise, found_.peaks[3].signal_to_noise);
}

TEST_F(PeakEdits, AddRestoresWhatWasDropped) {
    const FoundPeaks less = drop_peak(found_, trace_.x, trace_.y, 300.0);
    ASSERT_EQ(less.peaks.size(), 3U);
    const FoundPeaks more = add_peak(less, trace_.x, trace_.y, 300.4);
    ASSERT_EQ(more.peaks.size(), 4U);
    EXPECT_NEAR(more.peaks[3].apex, found_.peaks[3].apex, 1e-6);
    EXPECT_NEAR(more.peaks[3].area, found_.peaks[3].area, 0.01 * found_.peaks[3].area);
    EXPECT_FALSE(more.peaks[3].is_shoulder);
    EXPECT_THROW((void)add_peak(more, trace_.x, trace_.y, 300.4), InputError);
    EXPECT_THROW((void)add_peak(more, trace_.x, trace_.y, 1000.0), InputError);
}

TEST_F(PeakEdits, AddOnAFlankMakesAShoulder) {
    const FoundPeaks more = add_peak(found_, trace_.x, trace_.y, 303.0);
    ASSERT_EQ(more.peaks.size(), 5U);
    EXPECT_TRUE(more.peaks[4].is_shoulder);
    EXPECT_EQ(more.peaks[3].end, more.peaks[4].start);
    EXPECT_NEAR(more.peaks[3].area + more.peaks[4].area, found_.peaks[3].area, 1e-6);
}

TEST_F(PeakEdits, SplitDividesTheAreaAtTheLine) {
    const FoundPeaks more = split_peak(found_, trace_.x, trace_.y, 100.0);
    ASSERT_EQ(more.peaks.size(), 5U);
    EXPECT_NEAR(more.peaks[0].end, 100.0, 0.05);
    EXPECT_NEAR(more.peaks[0].area + more.peaks[1].area, found_.peaks[0].area, 1e-6);
    EXPECT_NEAR(more.peaks[0].area, more.peaks[1].area, 0.05 * found_.peaks[0].area);
    EXPECT_TRUE(more.peaks[0].shares_end);
    EXPECT_THROW((void)split_peak(found_, trace_.x, trace_.y, found_.peaks[0].start), InputError);
}

TEST_F(PeakEdits, ASharedBorderMovesForBoth) {
    const double border = found_.peaks[1].end;
    const FoundPeaks moved = move_border(found_, trace_.x, trace_.y, border + 0.3, border + 1.0);
    EXPECT_NEAR(moved.peaks[1].end, border + 1.0, 0.05);
    EXPECT_EQ(moved.peaks[1].end, moved.peaks[2].start);
    EXPECT_GT(moved.peaks[1].area, found_.peaks[1].area);
    EXPECT_NEAR(moved.peaks[1].area + moved.peaks[2].area,
                found_.peaks[1].area + found_.peaks[2].area, 1e-6);
    EXPECT_THROW((void)move_border(found_, trace_.x, trace_.y, border, 212.0), InputError);
    EXPECT_THROW((void)move_border(found_, trace_.x, trace_.y, 250.0, 251.0), InputError);
}

TEST_F(PeakEdits, AFreeStartMovesAlone) {
    const double start = found_.peaks[3].start;
    const FoundPeaks moved = move_border(found_, trace_.x, trace_.y, start, start - 2.0);
    EXPECT_NEAR(moved.peaks[3].start, start - 2.0, 0.05);
    EXPECT_EQ(moved.peaks[2].end, found_.peaks[2].end);
}

TEST_F(PeakEdits, AMissSaysWhichPeaksThereAre) {
    try {
        (void)drop_peak(found_, trace_.x, trace_.y, 20.0);
        FAIL();
    } catch (const InputError &error) {
        EXPECT_EQ(error.found(), "a peak to drop at 20");
        EXPECT_NE(error.expected().find(fmt::format("{:.6g}", found_.peaks[3].apex)),
                  std::string::npos);
    }
    const std::vector<double> shorter(trace_.x.begin(), trace_.x.end() - 1);
    EXPECT_THROW((void)drop_peak(found_, shorter, std::span(trace_.y).first(shorter.size()), 100.0),
                 InputError);
}

} // namespace
} // namespace cospot::signal
