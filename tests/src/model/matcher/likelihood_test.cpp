#include "model/matcher/likelihood.h"
#include "model/matcher/run_prior.h"
#include "shared/student_t.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot::matcher {
namespace {

/// Compounds at the given indices with a spread of 2 each.
SystemModel index_system(const std::vector<double> &indices, Basis basis) {
    SystemModel system;
    system.quantity = Quantity::RI;
    for (std::size_t compound = 0; compound < indices.size(); ++compound) {
        CandidateDensity density;
        density.compound = compound;
        density.basis = basis;
        density.location = density.mean = indices[compound];
        density.scale = 2.0;
        density.freedom = 30.0;
        density.log_constant = student_t_constant(density.freedom);
        density.runs = 3;
        system.candidates.push_back(density);
    }
    system.unlisted = fit_unlisted(Quantity::RI, system.candidates, 2.0);
    return system;
}

Knowledge two_systems(Basis basis) {
    return {{index_system({1000, 1100, 1200, 1300}, basis),
             index_system({1500, 1600, 1700, 1800}, basis)},
            {}};
}

ErrorCorrelation correlated(double correlation) {
    return {{0, 1}, Eigen::Matrix2d{{1.0, correlation}, {correlation, 1.0}}};
}

/// A reading of a run of which it is known that it lies as the library does.
Observation on_the_library(std::size_t system, double value, double uncertainty = 0.0) {
    return {system, value, uncertainty, {{1.0, {}}}};
}

double ratio_of(std::size_t compound, const std::vector<Observation> &observations,
                const Knowledge &knowledge) {
    const auto ratios = likelihood_ratios(observations, knowledge, nearby_candidates(knowledge));
    for (const LikelihoodRatio &ratio : ratios) {
        if (ratio.compound == compound) {
            return ratio.log_ratio;
        }
    }
    ADD_FAILURE() << "no ratio of " << compound;
    return 0.0;
}

TEST(Likelihood, IndependentReadingsAddUp) {
    const Knowledge knowledge = two_systems(Basis::transferred);
    const Observation first = on_the_library(0, 1101.0);
    const Observation second = on_the_library(1, 1597.0);
    EXPECT_NEAR(ratio_of(1, {first, second}, knowledge),
                ratio_of(1, {first}, knowledge) + ratio_of(1, {second}, knowledge), 1e-9);
    EXPECT_GT(ratio_of(1, {first}, knowledge), 0.0);
    EXPECT_LT(ratio_of(2, {first}, knowledge), 0.0);
}

TEST(Likelihood, OfOneReadingIsTheRatioOfTheDensities) {
    const Knowledge knowledge = two_systems(Basis::measured);
    const SystemModel &system = knowledge.systems[0];
    EXPECT_NEAR(ratio_of(1, {on_the_library(0, 1103.0, 0.5)}, knowledge),
                log_density(system.candidates[1], Quantity::RI, 1103.0, 0.5) -
                    log_density(system.unlisted, Quantity::RI, 1103.0, 0.5),
                1e-12);
}

TEST(Likelihood, AVagueReadingLeavesTheOddsUnchanged) {
    Knowledge knowledge = two_systems(Basis::transferred);
    const Observation precise = on_the_library(0, 1104.0);
    const Observation vague = on_the_library(1, 1630.0, 1e6);
    for (std::size_t compound = 0; compound < 4; ++compound) {
        EXPECT_NEAR(ratio_of(compound, {vague}, knowledge), 0.0, 1e-3);
    }
    // Nor where errors, and readings of unlisted compounds, go together.
    knowledge.dependence.compounds[1] = {correlated(0.8)};
    const Eigen::Matrix2d covariance{{10000.0, 8000.0}, {8000.0, 10000.0}};
    knowledge.dependence.unlisted = {{{0, 1}, Eigen::Vector2d(1150.0, 1650.0), covariance}};
    EXPECT_NEAR(ratio_of(1, {precise, vague}, knowledge), ratio_of(1, {precise}, knowledge), 1e-3);
}

TEST(Likelihood, ReadingsWhoseErrorsGoTogetherCountForLess) {
    // Both readings lie two spreads above what was transferred: with a common cause that is one
    // surprise, not two. A compound that fits both gains less than it would from two independent
    // readings where those of unlisted compounds go together.
    Knowledge knowledge = two_systems(Basis::transferred);
    const std::vector<Observation> off{on_the_library(0, 1104.0), on_the_library(1, 1604.0)};
    const double independent = ratio_of(1, off, knowledge);
    knowledge.dependence.compounds[1] = {correlated(0.8)};
    EXPECT_GT(ratio_of(1, off, knowledge), independent + 0.5);
    knowledge.dependence.compounds.clear();
    const std::vector<Observation> fitting{on_the_library(0, 1150.0), on_the_library(1, 1650.0)};
    const double apart = ratio_of(1, fitting, knowledge);
    const Eigen::Matrix2d covariance{{10000.0, 8000.0}, {8000.0, 10000.0}};
    knowledge.dependence.unlisted = {{{0, 1}, Eigen::Vector2d(1150.0, 1650.0), covariance}};
    EXPECT_NEAR(ratio_of(1, fitting, knowledge),
                apart - log_together(knowledge.dependence.unlisted[0], {{0, 1150.0}, {1, 1650.0}}),
                1e-9);
    EXPECT_LT(ratio_of(1, fitting, knowledge), apart - 0.3);
}

TEST(Likelihood, OppositeErrorsOfCorrelatedReadingsCountAgainst) {
    Knowledge knowledge = two_systems(Basis::transferred);
    const std::vector<Observation> off{on_the_library(0, 1104.0), on_the_library(1, 1596.0)};
    const double independent = ratio_of(1, off, knowledge);
    knowledge.dependence.compounds[1] = {correlated(0.8)};
    EXPECT_LT(ratio_of(1, off, knowledge), independent - 2.0);
}

TEST(Likelihood, ErrorsOfMeasuredCompoundsAreIndependent) {
    Knowledge knowledge = two_systems(Basis::measured);
    const std::vector<Observation> off{on_the_library(0, 1104.0), on_the_library(1, 1604.0)};
    const double independent = ratio_of(1, off, knowledge);
    knowledge.dependence.compounds[1] = {correlated(0.8)};
    EXPECT_EQ(ratio_of(1, off, knowledge), independent);
}

TEST(Likelihood, NoValueOnASystemLeavesTheOddsUnchanged) {
    Knowledge knowledge = two_systems(Basis::measured);
    const Observation first = on_the_library(0, 1101.0);
    const Observation second = on_the_library(1, 1601.0);
    auto &candidates = knowledge.systems[1].candidates;
    candidates.erase(candidates.begin() + 1);
    EXPECT_NEAR(ratio_of(1, {first, second}, knowledge), ratio_of(1, {first}, knowledge), 1e-12);
    EXPECT_EQ(
        likelihood_ratios(std::vector{second}, knowledge, nearby_candidates(knowledge)).size(), 3U);
}

TEST(Likelihood, AShiftOfTheRunMovesWhatIsExpected) {
    const Knowledge knowledge = two_systems(Basis::measured);
    const auto with = [&](const ShiftMixture &shifts) {
        return ratio_of(1, {{0, 1107.0, 0.0, shifts}}, knowledge);
    };
    const double known = with({{1.0, {7.0, 0.0}}});
    EXPECT_GT(known, with({{1.0, {}}}) + 4.0);
    EXPECT_LT(with({{1.0, {7.0, 9.0}}}), known);
}

TEST(Likelihood, OfAMixtureOfShiftsIsTheMeanOfTheLikelihoods) {
    const Knowledge knowledge = two_systems(Basis::measured);
    const auto with = [&](const ShiftMixture &shifts) {
        return ratio_of(1, {{0, 1107.0, 0.3, shifts}}, knowledge);
    };
    const RunShift here{7.0, 1.0};
    const RunShift there{-3.0, 4.0};
    EXPECT_NEAR(std::exp(with({{0.3, here}, {0.7, there}})),
                0.3 * std::exp(with({{1.0, here}})) + 0.7 * std::exp(with({{1.0, there}})), 1e-9);
}

TEST(Likelihood, WithoutRegistrationThePriorOfShiftsCounts) {
    const Knowledge knowledge = two_systems(Basis::measured);
    const SystemModel &system = knowledge.systems[0];
    for (const double value : {1100.0, 1109.0}) {
        EXPECT_NEAR(ratio_of(1, {{0, value, 0.0}}, knowledge),
                    ratio_of(1, {{0, value, 0.0, prior_shifts(run_prior(system), system, value)}},
                             knowledge),
                    1e-12);
    }
    // An accident is wide: nine units off are less of a surprise than where the run is known.
    EXPECT_GT(ratio_of(1, {{0, 1109.0, 0.0}}, knowledge),
              ratio_of(1, {on_the_library(0, 1109.0)}, knowledge));
}

} // namespace
} // namespace cospot::matcher
