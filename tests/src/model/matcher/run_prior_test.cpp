// What is believed of a run before its features are seen.
#include "model/matcher/run_prior.h"

#include "shifting_library.h"

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <gtest/gtest.h>

#include <cmath>

namespace cospot::matcher {
namespace {

constexpr std::array kQuantities{Quantity::Rf, Quantity::RI,  Quantity::tR,
                                 Quantity::k,  Quantity::RRT, Quantity::r};

SystemModel system_of(Quantity quantity) {
    SystemModel system;
    system.quantity = quantity;
    system.spread.variance = 4e-4;
    return system;
}

TEST(RunPrior, ShiftedTimesAreLikelierTheOlderTheLibrary) {
    SystemModel system = system_of(Quantity::tR);
    EXPECT_DOUBLE_EQ(run_prior(system).accident, 0.3); // no value is dated
    // A time of 10 min may have drifted by 0.15 though nothing befell the run.
    EXPECT_NEAR(std::sqrt(prior_shifts(run_prior(system), system, 10.0).front().shift.variance),
                0.15, 1e-9);
    system.newest_year = 2024.0;
    EXPECT_DOUBLE_EQ(run_prior(system).accident, 0.1);
    EXPECT_EQ(prior_shifts(run_prior(system), system, 10.0).front().shift.variance, 0.0);
    double before = 0.1;
    for (const double years : {0.1, 0.25, 1.0, 5.0}) {
        system.years_since = years;
        EXPECT_GT(run_prior(system).accident, before);
        before = run_prior(system).accident;
    }
    EXPECT_LT(before, 0.5);
    for (const Quantity quantity : kQuantities) {
        SystemModel other = system_of(quantity);
        const double undated = run_prior(other).accident;
        other.newest_year = 2024.0;
        EXPECT_EQ(run_prior(other).accident == undated, quantity != Quantity::tR);
    }
}

TEST(LineScale, OfRfIsRm) {
    // batesmith1950, formula from memory: R_M = log10((1 - R_F) / R_F).
    for (const double rf : {0.02, 0.1, 0.25, 0.5, 0.8, 0.98}) {
        const double scaled = to_model_scale(Quantity::Rf, rf);
        const double rm = to_line_scale(Quantity::Rf, scaled);
        EXPECT_NEAR(rm, std::log10((1.0 - rf) / rf), 1e-12);
        EXPECT_NEAR(from_line_scale(Quantity::Rf, rm), scaled, 1e-12);
    }
}

TEST(LineScale, OfOtherQuantitiesIsTheModelScale) {
    for (const Quantity quantity : kQuantities) {
        if (quantity != Quantity::Rf) {
            EXPECT_EQ(to_line_scale(quantity, 0.3), 0.3);
            EXPECT_EQ(from_line_scale(quantity, 0.3), 0.3);
            EXPECT_EQ(model_per_line(quantity, 0.3), 1.0);
        }
    }
}

TEST(LineScale, DerivativeIsThatOfTheScale) {
    for (const double rm : {-1.5, -0.3, 0.0, 0.8}) {
        const double step = 1e-6;
        const double numeric =
            (from_line_scale(Quantity::Rf, rm + step) - from_line_scale(Quantity::Rf, rm - step)) /
            (2.0 * step);
        EXPECT_NEAR(model_per_line(Quantity::Rf, rm), numeric, 1e-8);
    }
}

TEST(AccidentBelow, IsTheDistributionFunctionOfStudentsT) {
    const boost::math::students_t t4(4.0);
    for (const double x : {-40.0, -4.0, -1.0, -0.1, 0.0, 0.7, 2.0, 9.0}) {
        EXPECT_NEAR(accident_below(x), boost::math::cdf(t4, x), 1e-12) << x;
    }
}

TEST(RunPrior, SharesOfAShiftSumToOne) {
    for (const Quantity quantity : kQuantities) {
        const SystemModel system = system_of(quantity);
        for (const double value : {0.0, 0.3, 1.0, 1200.0}) {
            double sum = 0.0;
            for (const WeightedShift &one : prior_shifts(run_prior(system), system, value)) {
                EXPECT_GE(one.shift.variance, 0.0);
                EXPECT_EQ(one.shift.mean, 0.0);
                sum += one.weight;
            }
            EXPECT_NEAR(sum, 1.0, 1e-12) << to_text(quantity) << ' ' << value;
        }
    }
}

TEST(RunPrior, AccidentsFollowStudentsTWithFourDegrees) {
    // Half a scale to four scales: the parts of the mixture against Boost's distribution function.
    const SystemModel system = system_of(Quantity::RI);
    const RunPrior prior = run_prior(system);
    const ShiftMixture mixture = prior_shifts(prior, system, prior.centre);
    for (const double scales : {0.5, 1.0, 2.0, 4.0}) {
        double below = 0.0;
        for (std::size_t i = 1; i < mixture.size(); ++i) { // the first is the usual run
            const boost::math::normal part(0.0, std::sqrt(mixture[i].shift.variance));
            below += mixture[i].weight / prior.accident *
                     boost::math::cdf(part, scales * prior.accident_offset);
        }
        EXPECT_NEAR(below, boost::math::cdf(boost::math::students_t(4.0), scales), 0.012) << scales;
    }
}

TEST(RunPrior, UsualShiftsAreThoseBetweenTheRunsOfTheLibrary) {
    const SystemModel shifting = shifting_system(even_indices(20), 3.0);
    ASSERT_GT(shifting.shift.variance, 1.0);
    EXPECT_DOUBLE_EQ(run_prior(shifting).usual_offset, std::sqrt(shifting.shift.variance));
    const SystemModel steady = shifting_system(even_indices(20), 0.0);
    EXPECT_DOUBLE_EQ(run_prior(steady).usual_offset, 0.5 * std::sqrt(steady.spread.variance));
    // However the library's runs vary, an accident is farther off.
    const SystemModel wild = shifting_system(even_indices(20), 20.0);
    EXPECT_GE(run_prior(wild).accident_offset, 3.0 * run_prior(wild).usual_offset);
}

TEST(RunPrior, ShiftOfAPlateEqualsTheModelScaleShiftAtMidPlate) {
    SystemModel plate = system_of(Quantity::Rf);
    plate.shift.variance = 9e-4;
    const RunPrior prior = run_prior(plate);
    const double offset =
        from_line_scale(Quantity::Rf, 0.0) - from_line_scale(Quantity::Rf, prior.usual_offset);
    EXPECT_NEAR(offset, 0.03, 1e-4);
    EXPECT_NEAR(std::sqrt(prior_shifts(prior, plate, 0.5).front().shift.variance), 0.03, 1e-9);
}

TEST(RunPrior, ASlopeMakesShiftsWiderFarFromTheCentre) {
    const SystemModel system = shifting_system(even_indices(20), 3.0);
    const RunPrior prior = run_prior(system);
    EXPECT_NEAR(prior.centre, 1375.0, 30.0); // the indices are 900 to 1850
    const auto widest = [&](double value) {
        return prior_shifts(prior, system, value)[1].shift.variance;
    };
    EXPECT_GT(widest(prior.centre + 1000.0), 1.1 * widest(prior.centre));
    EXPECT_NEAR(widest(prior.centre + 1000.0), widest(prior.centre - 1000.0), 1e-6);
}

TEST(RunPrior, AllShiftsLieWithinTheSearchedRange) {
    for (const Quantity quantity : kQuantities) {
        const SystemModel system = system_of(quantity);
        const RunPrior prior = run_prior(system);
        for (const double value : {0.05, 0.5, 0.9}) {
            const double farthest = farthest_shift(prior, quantity, value);
            for (const WeightedShift &one : prior_shifts(prior, system, value)) {
                EXPECT_LE(kReachOfShift * std::sqrt(one.shift.variance), farthest)
                    << to_text(quantity);
            }
        }
    }
}

} // namespace
} // namespace cospot::matcher
