// How widely readings of one compound scatter within one run.
#include "model/matcher/within_run.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace cospot::matcher {
namespace {

using Repeats = std::vector<std::vector<double>>;

SystemModel index_system(double within_run_variance) {
    SystemModel system;
    system.quantity = Quantity::RI;
    system.spread.assumed = 3.0;
    system.within_run_variance = within_run_variance;
    return system;
}

TEST(WithinRun, IsAThirdOfTheAssumedSpreadWhereNothingWasRepeated) {
    for (const Quantity quantity : {Quantity::Rf, Quantity::RI, Quantity::tR, Quantity::k}) {
        const SystemModel system = fit_system(Technique::hplc, quantity, {});
        const WithinRun found = within_run(system, {});
        EXPECT_TRUE(found.is_assumed);
        EXPECT_NEAR(std::sqrt(found.variance), assumed_spread(Technique::hplc, quantity) / 3.0,
                    1e-12);
        // Standards that were read once tell nothing.
        const WithinRun once = within_run(system, Repeats{{1000.0}, {1100.0}});
        EXPECT_TRUE(once.is_assumed);
        EXPECT_DOUBLE_EQ(once.variance, found.variance);
    }
}

TEST(WithinRun, IsWhatTheLibrarysReplicatesShow) {
    const WithinRun found = within_run(index_system(0.25), {});
    EXPECT_FALSE(found.is_assumed);
    EXPECT_NEAR(found.variance, 0.25, 1e-12);
}

TEST(WithinRun, RepeatsInThisRunArePooledWithWhatWasKnown) {
    // Two pairs, 2 and 4 apart: sums of squares 2 and 8 with a degree of freedom each, beside four
    // of the library: (4 x 0.25 + 2 + 8) / 6.
    const Repeats repeats{{1000.0, 1002.0}, {1100.0, 1104.0}, {1200.0}};
    const WithinRun found = within_run(index_system(0.25), repeats);
    EXPECT_NEAR(found.variance, 11.0 / 6.0, 1e-9);
    EXPECT_FALSE(found.is_assumed);
    // Without the library they are pooled with the assumption, and it is no longer one.
    const WithinRun alone = within_run(index_system(0.0), repeats);
    EXPECT_NEAR(alone.variance, (4.0 + 10.0) / 6.0, 1e-9); // assumed 3 / 3 index units
    EXPECT_FALSE(alone.is_assumed);
}

TEST(WithinRun, ManyRepeatsOutweighWhatWasKnown) {
    std::mt19937 engine(1);
    std::normal_distribution<double> reading(1000.0, 2.0);
    Repeats repeats(1);
    for (int i = 0; i < 400; ++i) {
        repeats[0].push_back(reading(engine));
    }
    EXPECT_NEAR(std::sqrt(within_run(index_system(0.01), repeats).variance), 2.0, 0.2);
}

TEST(WithinRun, IsNeverFinerThanRounding) {
    // Repeats that were rounded to the same value do not scatter by nothing.
    const WithinRun found =
        within_run(index_system(1e-12), Repeats{{1000.0, 1000.0, 1000.0}, {1200.0, 1200.0}});
    EXPECT_NEAR(std::sqrt(found.variance), 0.05 * 3.0, 1e-9);
}

} // namespace
} // namespace cospot::matcher
