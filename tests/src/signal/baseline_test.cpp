#include "signal/baseline.h"

#include "generated_trace.h"
#include "shared/error.h"
#include "signal/noise.h"
#include "signal/penalised_smoother.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <stdexcept>

namespace cospot::signal {
namespace {

std::vector<double> axis(std::size_t points, bool uneven) {
    std::vector<double> x;
    double at = 3.0;
    for (std::size_t i = 0; i < points; ++i) {
        x.push_back(at);
        at += uneven && i % 3 == 0 ? 0.05 : 0.1;
    }
    return x;
}

TEST(PenalisedSmoother, KeepsALineAlsoOnAnUnevenAxis) {
    for (const bool uneven : {false, true}) {
        const auto x = axis(300, uneven);
        std::vector<double> y;
        for (const double at : x) {
            y.push_back(5.0 - 2.0 * at);
        }
        const auto z = PenalisedSmoother(x, 4.0).smooth(y);
        for (std::size_t i = 0; i < x.size(); ++i) {
            EXPECT_NEAR(z[i], y[i], 1e-6);
        }
    }
}

// eilers2003, from memory: in the middle of an even axis the gain is 1 / (1 + lambda omega^4) for
// slow waves, so half at the period, 16/17 at twice and 1/17 at half of it.
TEST(PenalisedSmoother, PassesHalfOfAWaveOfItsPeriod) {
    for (const bool uneven : {false, true}) {
        const auto x = axis(4000, uneven);
        for (const auto &[wave, gain] :
             {std::pair{8.0, 0.5}, {16.0, 16.0 / 17.0}, {4.0, 1.0 / 17.0}}) {
            std::vector<double> y;
            for (const double at : x) {
                y.push_back(std::cos(2.0 * std::numbers::pi * at / wave));
            }
            const auto z = PenalisedSmoother(x, 8.0).smooth(y);
            for (std::size_t i = 1500; i < 2500; i += 50) {
                EXPECT_NEAR(z[i], gain * y[i], 0.003);
            }
        }
    }
    EXPECT_THROW(PenalisedSmoother(axis(2, false), 1.0), std::invalid_argument);
}

TEST(PenalisedSmoother, BridgesPointsWithoutWeight) {
    const auto x = axis(300, false);
    std::vector<double> y(300, 2.0);
    std::vector<double> weights(300, 1.0);
    for (std::size_t i = 100; i < 140; ++i) {
        y[i] = 1e6;
        weights[i] = 0.0;
    }
    for (const double z : PenalisedSmoother(x, 4.0).smooth(y, weights)) {
        EXPECT_NEAR(z, 2.0, 1e-6);
    }
}

TEST(RequireTrace, SaysWhichPointIsWrong) {
    const std::vector<double> x{0.0, 1.0, 1.0};
    const std::vector<double> y{0.0, 0.0, 0.0};
    try {
        require_trace(x, y, 3);
        FAIL();
    } catch (const InputError &error) {
        EXPECT_EQ(error.found(), "1 at point 3 of the trace, after 1");
    }
}

// A wave and peaks of S/N 100, as baek2015 tries it; numbers invented.
TEST(ArplsBaseline, GoesBelowPeaksAndThroughNoise) {
    TraceRecipe recipe;
    recipe.peaks = 6;
    recipe.seed = 77;
    recipe.least_ratio = 50.0;
    recipe.most_ratio = 500.0;
    const GeneratedTrace trace = generated(recipe);
    const auto baseline = arpls_baseline(trace.x, trace.y, 80.0, 2.0);
    double largest = 0.0;
    for (std::size_t i = 100; i + 100 < trace.x.size(); ++i) {
        double mean = 0.0; // of noise over 41 points: deviation 0.16
        for (std::size_t k = i - 20; k <= i + 20; ++k) {
            double value = trace.y[k];
            for (const auto &peak : trace.peaks) {
                value -= height_at(peak, trace.x[k]);
            }
            mean += value / 41.0;
        }
        largest = std::max(largest, std::abs(baseline[i] - mean));
    }
    EXPECT_LT(largest, 1.5);
}

TEST(ArplsBaseline, IsNotDrawnDownByADip) {
    std::vector<double> y(2000, 10.0);
    const auto x = axis(2000, false);
    TraceRecipe recipe;
    recipe.points = 2000;
    recipe.drift = 0.0;
    const auto noise = generated(recipe).y;
    for (std::size_t i = 0; i < y.size(); ++i) {
        y[i] += noise[i] - (i > 900 && i < 960 ? 200.0 : 0.0);
    }
    for (const double value : arpls_baseline(x, y, 60.0, 2.0)) {
        EXPECT_NEAR(value, 10.0, 1.0);
    }
}

TEST(BaselineBetweenPeaks, KeepsTheFallbackWhereNothingIsFree) {
    const auto x = axis(100, false);
    const std::vector<double> y(100, 4.0);
    const std::vector<double> free(100, 0.0);
    const std::vector<double> periods(100, 5.0);
    const std::vector<double> fallback(100, 3.0);
    EXPECT_EQ(baseline_between_peaks(x, y, free, periods, 0.5, fallback), fallback);
}

// The variance of a mean of noise by the covariances, against what means of blocks show.
TEST(Noise, VarianceOfASumKnowsThatNeighboursGoTogether) {
    for (const NoiseKind kind : {NoiseKind::kWhite, NoiseKind::kFiltered}) {
        TraceRecipe recipe;
        recipe.points = 20000;
        recipe.drift = 0.0;
        recipe.kind = kind;
        const GeneratedTrace trace = generated(recipe);
        const std::vector<double> free(trace.x.size(), 1.0);
        const Noise noise = read_noise(trace.x, trace.y, trace.y, free, 2.0, 4.0);
        const std::size_t block = 40;
        double squares = 0.0;
        for (std::size_t i = 0; i < trace.y.size(); i += block) {
            double sum = 0.0;
            for (std::size_t k = i; k < i + block; ++k) {
                sum += trace.y[k];
            }
            squares += sum * sum;
        }
        const double seen = squares / static_cast<double>(trace.y.size() / block);
        const std::vector<double> ones(block, 1.0);
        const double told = variance_of_sum(noise, std::span(trace.x).first(block), ones);
        EXPECT_NEAR(told, seen, 0.2 * seen);
    }
}

TEST(Noise, RangeNeedsFiveFreeHalfWidths) {
    const auto x = axis(1000, false);
    std::vector<double> y(1000, 0.0);
    y[500] = 3.0;
    y[520] = -1.0;
    std::vector<double> free(1000, 1.0);
    const auto range = noise_range(x, y, free, x[510], 1.0);
    ASSERT_TRUE(range.has_value());
    EXPECT_DOUBLE_EQ(range->range, 4.0);
    EXPECT_NEAR(range->half_widths, 20.0, 0.2);
    std::fill(free.begin(), free.end() - 45, 0.0);
    EXPECT_FALSE(noise_range(x, y, free, x[510], 1.0).has_value());
}

} // namespace
} // namespace cospot::signal
