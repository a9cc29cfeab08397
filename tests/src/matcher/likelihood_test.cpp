#include "matcher/likelihood.h"

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

double ratio_of(std::size_t compound, const std::vector<Observation> &observations,
                const Knowledge &knowledge) {
    const auto ratios = likelihood_ratios(observations, knowledge, nearby_candidates(knowledge),
                                          unknown_shifts(knowledge));
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
    const Observation first{0, 1101.0, 0.0};
    const Observation second{1, 1597.0, 0.0};
    EXPECT_NEAR(ratio_of(1, {first, second}, knowledge),
                ratio_of(1, {first}, knowledge) + ratio_of(1, {second}, knowledge), 1e-9);
    EXPECT_GT(ratio_of(1, {first}, knowledge), 0.0);
    EXPECT_LT(ratio_of(2, {first}, knowledge), 0.0);
}

TEST(Likelihood, OfOneReadingIsTheRatioOfTheDensities) {
    const Knowledge knowledge = two_systems(Basis::measured);
    const SystemModel &system = knowledge.systems[0];
    EXPECT_NEAR(ratio_of(1, {{0, 1103.0, 0.5}}, knowledge),
                log_density(system.candidates[1], Quantity::RI, 1103.0, 0.5) -
                    log_density(system.unlisted, Quantity::RI, 1103.0),
                1e-12);
}

TEST(Likelihood, ReadingsWhoseErrorsGoTogetherCountForLess) {
    // Both readings lie two spreads above what was transferred: with a common cause that is one
    // surprise, not two. A compound that fits both gains less than it would from two independent
    // readings where those of unlisted compounds go together.
    Knowledge knowledge = two_systems(Basis::transferred);
    const std::vector<Observation> off{{0, 1104.0, 0.0}, {1, 1604.0, 0.0}};
    const double independent = ratio_of(1, off, knowledge);
    knowledge.dependence.compounds[1] = correlated(0.8);
    EXPECT_GT(ratio_of(1, off, knowledge), independent + 0.5);
    knowledge.dependence.compounds.clear();
    const std::vector<Observation> fitting{{0, 1150.0, 0.0}, {1, 1650.0, 0.0}};
    const double apart = ratio_of(1, fitting, knowledge);
    knowledge.dependence.unlisted = correlated(0.8);
    EXPECT_NEAR(ratio_of(1, fitting, knowledge), apart + 0.5 * std::log(1.0 - 0.76 * 0.76),
                0.02); // both in the middle of the range
}

TEST(Likelihood, ErrorsInOppositeDirectionsAreTwoSurprises) {
    Knowledge knowledge = two_systems(Basis::transferred);
    const std::vector<Observation> off{{0, 1104.0, 0.0}, {1, 1596.0, 0.0}};
    const double independent = ratio_of(1, off, knowledge);
    knowledge.dependence.compounds[1] = correlated(0.8);
    EXPECT_LT(ratio_of(1, off, knowledge), independent - 2.0);
}

TEST(Likelihood, ErrorsOfMeasuredCompoundsAreIndependent) {
    Knowledge knowledge = two_systems(Basis::measured);
    const std::vector<Observation> off{{0, 1104.0, 0.0}, {1, 1604.0, 0.0}};
    const double independent = ratio_of(1, off, knowledge);
    knowledge.dependence.compounds[1] = correlated(0.8);
    EXPECT_EQ(ratio_of(1, off, knowledge), independent);
}

TEST(Likelihood, ACompoundThatASystemDoesNotKnowIsAsLikelyThereAsUnlisted) {
    Knowledge knowledge = two_systems(Basis::measured);
    const Observation first{0, 1101.0, 0.0};
    const Observation second{1, 1601.0, 0.0};
    auto &candidates = knowledge.systems[1].candidates;
    candidates.erase(candidates.begin() + 1);
    EXPECT_NEAR(ratio_of(1, {first, second}, knowledge), ratio_of(1, {first}, knowledge), 1e-12);
    EXPECT_EQ(likelihood_ratios(std::vector{second}, knowledge, nearby_candidates(knowledge),
                                unknown_shifts(knowledge))
                  .size(),
              3U);
}

TEST(Likelihood, AShiftOfTheRunMovesWhatIsExpected) {
    const Knowledge knowledge = two_systems(Basis::measured);
    const std::vector<Observation> observations{{0, 1107.0, 0.0}};
    const std::vector<RunShift> shifted{{7.0, 0.0}, {0.0, 0.0}};
    const double with =
        likelihood_ratios(observations, knowledge, nearby_candidates(knowledge), shifted)[1]
            .log_ratio;
    EXPECT_GT(with, ratio_of(1, observations, knowledge) + 4.0);
    const std::vector<RunShift> uncertain{{7.0, 9.0}, {0.0, 0.0}};
    EXPECT_LT(likelihood_ratios(observations, knowledge, nearby_candidates(knowledge), uncertain)[1]
                  .log_ratio,
              with);
}

TEST(Likelihood, NothingIsKnownOfANewRunButHowRunsVary) {
    Knowledge knowledge = two_systems(Basis::measured);
    knowledge.systems[1].shift = {0.0, 4.0};
    const auto shifts = unknown_shifts(knowledge);
    ASSERT_EQ(shifts.size(), 2U);
    EXPECT_EQ(shifts[0].variance, 0.0);
    EXPECT_EQ(shifts[1].variance, 4.0);
}

} // namespace
} // namespace cospot::matcher
