#include "model/matcher/run_effects.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <vector>

namespace cospot::matcher {
namespace {

/// Retention indices of compounds in runs that shift all of them.
struct Library {
    std::vector<double> shifts; ///< true ones, by run
    std::vector<KnownValue> values;
};

Library simulated(std::size_t runs, std::size_t compounds, double shift_deviation,
                  double deviation) {
    std::mt19937 engine(42);
    std::normal_distribution<double> normal;
    Library library;
    for (std::size_t run = 0; run < runs; ++run) {
        library.shifts.push_back(shift_deviation * normal(engine));
    }
    for (std::size_t compound = 0; compound < compounds; ++compound) {
        for (std::size_t run = 0; run < runs; ++run) {
            library.values.push_back({compound, static_cast<std::int64_t>(run), true,
                                      900.0 + 40.0 * static_cast<double>(compound) +
                                          library.shifts[run] + deviation * normal(engine)});
        }
    }
    return library;
}

/// Adds a run in which the first compounds stand exactly `shift` above their true indices.
void add_run(Library &library, std::int64_t run, std::size_t compounds, double shift) {
    for (std::size_t compound = 0; compound < compounds; ++compound) {
        library.values.push_back(
            {compound, run, true, 900.0 + 40.0 * static_cast<double>(compound) + shift});
    }
}

double mean(const std::vector<double> &values) {
    double sum = 0.0;
    for (const double value : values) {
        sum += value;
    }
    return sum / static_cast<double>(values.size());
}

TEST(RunEffects, ShiftsAreRecoveredWithinTheirUncertainty) {
    const Library library = simulated(40, 25, 2.0, 0.5);
    const RunEffects effects = fit_run_effects(Quantity::RI, library.values);
    ASSERT_EQ(effects.shifts.size(), 40U);
    std::vector<double> found;
    for (const auto &[run, shift] : effects.shifts) {
        found.push_back(shift);
    }
    // Standard error of the median of 25 normal values; the level of all runs is arbitrary.
    const double error = 0.5 * std::sqrt(1.5708 / 25.0);
    int within_two = 0;
    for (std::size_t run = 0; run < found.size(); ++run) {
        const double miss =
            (found[run] - mean(found)) - (library.shifts[run] - mean(library.shifts));
        EXPECT_LT(std::abs(miss), 4.0 * error) << run;
        within_two += std::abs(miss) < 2.0 * error ? 1 : 0;
    }
    EXPECT_GE(within_two, 34);
    EXPECT_NEAR(std::sqrt(effects.variance), 2.0, 0.8);
}

TEST(RunEffects, RunsThatDoNotDifferHaveNone) {
    const RunEffects effects = fit_run_effects(Quantity::RI, simulated(20, 25, 0.0, 0.5).values);
    EXPECT_LT(effects.variance, 0.03); // of 0.25, that of a reading
    for (const auto &[run, shift] : effects.shifts) {
        EXPECT_LT(std::abs(shift), 0.3) << run;
    }
}

TEST(RunEffects, FewCompoundsShrinkAShift) {
    Library library = simulated(20, 30, 1.0, 2.0);
    add_run(library, 100, 30, 4.0);
    add_run(library, 101, 3, 4.0);
    const RunEffects effects = fit_run_effects(Quantity::RI, library.values);
    EXPECT_GT(effects.shifts.at(100), 3.0);
    EXPECT_LT(effects.shifts.at(101), 0.8 * effects.shifts.at(100));
    EXPECT_GT(effects.shifts.at(101), 0.0);
}

TEST(RunEffects, OneWildValueMakesNoShift) {
    Library library = simulated(10, 8, 1.0, 0.5);
    const RunEffects before = fit_run_effects(Quantity::RI, library.values);
    library.values[3].value += 900.0; // first compound in run 3
    const RunEffects after = fit_run_effects(Quantity::RI, library.values);
    for (const auto &[run, shift] : after.shifts) {
        EXPECT_NEAR(shift, before.shifts.at(run), 0.4) << run;
    }
    EXPECT_NEAR(std::sqrt(after.variance), std::sqrt(before.variance), 0.3);
}

TEST(RunEffects, FewerThanFiveRunsHaveNone) {
    EXPECT_TRUE(fit_run_effects(Quantity::RI, simulated(4, 25, 2.0, 0.5).values).shifts.empty());
    EXPECT_EQ(fit_run_effects(Quantity::RI, simulated(4, 25, 2.0, 0.5).values).variance, 0.0);
    EXPECT_EQ(fit_run_effects(Quantity::RI, simulated(5, 25, 2.0, 0.5).values).shifts.size(), 5U);
}

TEST(RunEffects, ARunThatSharesFewerThanThreeCompoundsHasNone) {
    Library library = simulated(6, 10, 2.0, 0.5);
    add_run(library, 100, 2, 4.0);
    for (std::size_t compound = 50; compound < 60; ++compound) {
        library.values.push_back({compound, 100, true, 3000.0}); // in no other run
    }
    const RunEffects effects = fit_run_effects(Quantity::RI, library.values);
    EXPECT_EQ(effects.shifts.size(), 6U);
    EXPECT_EQ(effects.shift_of({0, 100, true, 904.0}), 0.0);
    EXPECT_NE(effects.shift_of({0, 1, true, 900.0}), 0.0);
}

TEST(RunEffects, ValuesWhoseRunNobodyWroteDownHaveNone) {
    Library library = simulated(6, 10, 2.0, 0.5);
    for (KnownValue &known : library.values) {
        known.run_is_named = false;
    }
    EXPECT_TRUE(fit_run_effects(Quantity::RI, library.values).shifts.empty());
    const RunEffects effects{{{1, 3.0}}, 9.0};
    EXPECT_EQ(effects.shift_of({0, 1, false, 900.0}), 0.0);
    EXPECT_EQ(effects.shift_of({0, 1, true, 900.0}), 3.0);
}

TEST(RunEffects, CensoredSpotsDoNotCount) {
    // Runs of three compounds, one of which always stays at the start.
    std::vector<KnownValue> values;
    for (std::int64_t run = 0; run < 8; ++run) {
        const double shift = run % 2 == 0 ? 0.02 : -0.02;
        values.push_back({0, run, true, 0.3 + shift});
        values.push_back({1, run, true, 0.5 + shift});
        values.push_back({2, run, true, 0.0});
    }
    EXPECT_TRUE(fit_run_effects(Quantity::Rf, values).shifts.empty());
    for (KnownValue &known : values) {
        known.value += known.compound == 2 ? 0.7 + (known.run % 2 == 0 ? 0.02 : -0.02) : 0.0;
    }
    EXPECT_EQ(fit_run_effects(Quantity::Rf, values).shifts.size(), 8U);
}

} // namespace
} // namespace cospot::matcher
