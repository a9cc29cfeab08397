#include "fractions/calibration.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <string>

namespace cospot::fractions {
namespace {

ColumnBelief assumed(double silica_g = 25.0) {
    StatedColumn stated;
    stated.silica_g = silica_g;
    return assumed_column(stated);
}

/// An invented column: what it is really like.
struct Truth {
    double bed_ml = 42.0;
    double outside_ml = 12.0;
    double hold_ratio = 3.2;
};

SeenBand seen(const Truth &truth, const std::string &name, double rf, double off = 1.0) {
    const double k = truth.hold_ratio * off * (1.0 / rf - 1.0);
    const double middle = truth.outside_ml + truth.bed_ml * (1.0 + k);
    SeenBand band;
    band.run = name;
    band.compound = name;
    band.rf = rf;
    band.start_ml = middle * 0.8;
    band.end_ml = middle * 1.2;
    return band;
}

LoadedCompound at(double rf) {
    LoadedCompound compound;
    compound.rf = rf;
    return compound;
}

TEST(Calibration, OneRunShiftsTheEstimateAndNarrowsIt) {
    const ColumnBelief before = assumed();
    const ColumnBelief after = calibrated(before, {seen({}, "a", 0.3)});
    EXPECT_GT(after.hold_ratio(), 1.1 * before.hold_ratio());
    EXPECT_LT(after.hold_ratio(), 3.2); // one compound may be odd
    EXPECT_LT(after.spread(kHold), before.spread(kHold));
    EXPECT_LT(expected_band(after, at(0.25)).middle.factor(),
              expected_band(before, at(0.25)).middle.factor());
}

TEST(Calibration, ManyRunsRecoverTheRetentionOfTheColumn) {
    std::vector<SeenBand> bands;
    bands.reserve(60);
    for (int i = 0; i < 60; ++i) {
        bands.push_back(seen({}, std::to_string(i), 0.1 + 0.85 * (i % 20) / 20.0,
                             i % 3 == 0   ? 1.25
                             : i % 3 == 1 ? 0.8
                                          : 1.0));
    }
    const ColumnBelief column = calibrated(assumed(), bands);
    EXPECT_NEAR(column.hold_ratio(), 3.2, 0.35);
    EXPECT_NEAR(column.hold_up_ml(), 54.0, 3.0);
    EXPECT_LT(column.scatter, 0.6); // they scatter less than assumed
    EXPECT_LT(expected_band(column, at(0.3)).middle.factor(),
              expected_band(assumed(), at(0.3)).middle.factor() / 1.3);
}

TEST(Calibration, RunsThatScatterMoreThanAssumedAreNotMoreSure) {
    std::vector<SeenBand> bands;
    bands.reserve(30);
    for (int i = 0; i < 30; ++i) {
        bands.push_back(seen({}, std::to_string(i), 0.3, i % 2 == 0 ? 4.0 : 0.25));
    }
    EXPECT_GT(calibrated(assumed(), bands).scatter, 1.5);
}

TEST(Calibration, RepeatsOfOneCompoundHardlyNarrowTheEstimate) {
    const std::vector<SeenBand> often(50, seen({}, "a", 0.3));
    const double of_many = calibrated(assumed(), often).spread(kHold);
    EXPECT_GT(of_many, 0.9 * calibrated(assumed(), {seen({}, "a", 0.3)}).spread(kHold));
    EXPECT_NEAR(known_middle(often, "A", 0.31)->volume_ml, often.front().middle_ml(), 1e-6);
    EXPECT_EQ(known_middle(often, "A", 0.31)->runs, 50U);
    EXPECT_FALSE(known_middle(often, "a", 0.4)); // another eluent
    EXPECT_FALSE(known_middle(often, "b", 0.3));
}

TEST(Calibration, WidthAndTailAreLearned) {
    SeenBand wide = seen({}, "a", 0.3);
    wide.start_ml *= 0.7;
    wide.end_ml *= 1.3;
    wide.peak_ml = wide.start_ml + (wide.end_ml - wide.start_ml) / 4.0;
    const ColumnBelief column = calibrated(assumed(), {wide});
    EXPECT_GT(column.ln_width, 0.0);
    // Between what is assumed and what was seen: back three times the front.
    EXPECT_NEAR(column.tailing, std::sqrt(1.3 * 3.0), 1e-9);
}

// Columns, compounds, runs and plates drawn from the spreads that are assumed: 95 % of the middles
// of other compounds lie in the stated intervals, before and after one run. This is what "95 %"
// means; 1/R_F with 150 plates holds a quarter.
TEST(Calibration, IntervalsHoldNinetyFiveOfAHundred) {
    std::mt19937 dice(20261130);
    std::normal_distribution<double> normal;
    constexpr int columns = 1500;
    int before = 0;
    int after = 0;
    double factor_before = 0.0;
    double factor_after = 0.0;
    for (int i = 0; i < columns; ++i) {
        const double silica_g = i % 2 == 0 ? 4.0 : 40.0;
        const Truth truth{1.6 * silica_g * std::exp(kBedSpread * normal(dice)),
                          kOutside_ml * std::exp(kOutsideSpread * normal(dice)),
                          kHoldRatio * std::exp(kHoldRatioSpread * normal(dice))};
        const auto run = [&](const std::string &name, double true_rf) {
            SeenBand band = seen(truth, name, true_rf, std::exp(kCompoundSpread * normal(dice)));
            const double off = std::exp(kRunSpread * normal(dice));
            band.start_ml *= off;
            band.end_ml *= off;
            band.rf = std::min(0.99, std::max(0.01, true_rf + kRfSpread * normal(dice)));
            return band;
        };
        const double span = 0.2 + 0.1 * (i % 6);
        const SeenBand first = run("first", 0.3);
        const SeenBand second = run("second", span);
        const ExpectedBand blind = expected_band(assumed(silica_g), at(second.rf));
        const ExpectedBand taught =
            expected_band(calibrated(assumed(silica_g), {first}), at(second.rf));
        before += blind.middle.holds(second.middle_ml()) ? 1 : 0;
        after += taught.middle.holds(second.middle_ml()) ? 1 : 0;
        factor_before += std::log(blind.middle.factor());
        factor_after += std::log(taught.middle.factor());
    }
    EXPECT_NEAR(before, 0.95 * columns, 0.025 * columns);
    EXPECT_NEAR(after, 0.95 * columns, 0.025 * columns);
    EXPECT_LT(factor_after, 0.95 * factor_before);
}

TEST(Calibration, EachRunIsPredictedFromTheOthers) {
    EXPECT_EQ(held_out(assumed(), {seen({}, "a", 0.3)}).bands, 0U);
    std::vector<SeenBand> bands{seen({}, "a", 0.3), seen({}, "b", 0.5), seen({}, "c", 0.2)};
    bands[1].run = bands[0].run; // one run of two compounds
    EXPECT_EQ(count_runs(bands), 2U);
    const HoldOut check = held_out(assumed(), bands);
    EXPECT_EQ(check.bands, 3U);
    EXPECT_EQ(check.middles, 3U);
    bands.push_back(seen({}, "odd", 0.3, 20.0));
    EXPECT_LT(held_out(assumed(), bands).middles, 4U);
}

TEST(Calibration, TellsWhatOneRunWouldTeach) {
    const Teaching teaching = taught_by_one_run(assumed(), {at(0.5), at(0.3)}, 1, std::nullopt);
    EXPECT_LT(teaching.other, teaching.now);
    EXPECT_LT(teaching.same, teaching.other);
    EXPECT_GT(teaching.same, 1.0);
}

} // namespace
} // namespace cospot::fractions
