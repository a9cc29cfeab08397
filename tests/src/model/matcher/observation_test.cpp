// What a compound is expected to show in a run: the library moved to the run, and its standard
// beside the sample.
#include "model/matcher/observation.h"
#include "model/matcher/reading_error.h"

#include "model/matcher/ranking.h"
#include "model/matcher/run_prior.h"
#include "model/matcher/sample.h"
#include "shared/student_t.h"

#include <boost/math/distributions/students_t.hpp>
#include <gtest/gtest.h>

#include <cmath>
#include <memory>
#include <numbers>

namespace cospot::matcher {
namespace {

/// Compounds at the given values with one spread on the model scale.
SystemModel system_at(Quantity quantity, const std::vector<double> &values, double scale) {
    SystemModel system;
    system.quantity = quantity;
    system.spread.variance = scale * scale;
    for (std::size_t compound = 0; compound < values.size(); ++compound) {
        CandidateDensity density;
        density.compound = compound;
        density.mean = values[compound];
        density.location = to_model_scale(quantity, values[compound]);
        density.scale = scale;
        density.freedom = 12.0;
        density.log_constant = student_t_constant(density.freedom);
        density.runs = 3;
        system.candidates.push_back(density);
    }
    system.unlisted = fit_unlisted(quantity, system.candidates, scale);
    return system;
}

SystemModel empty_system(Quantity quantity) {
    return fit_system(Technique::gc, quantity, {});
}

std::shared_ptr<const StandardsInRun> beside(StandardsInRun standards) {
    return std::make_shared<const StandardsInRun>(std::move(standards));
}

TEST(SameRun, AStandardAloneGivesTheExpectedValue) {
    const SystemModel system = empty_system(Quantity::RI);
    const StandardInRun standard{0, 1234.0, 0.3, 1.0, 0.16};
    const CandidateDensity density = density_in_run({nullptr, &standard}, {5.0, 100.0}, system);
    EXPECT_EQ(density.basis, Basis::same_run);
    EXPECT_EQ(density.compound, 0U);
    EXPECT_EQ(density.runs, 1U);
    EXPECT_DOUBLE_EQ(density.location, 1234.0); // wherever the run lies against the library
    EXPECT_DOUBLE_EQ(density.mean, 1234.0);
    // The standard's reading and the sample's scatter within the run; reading the standard too.
    EXPECT_NEAR(density.scale, std::sqrt(2.0 * 0.16 + 0.09), 1e-12);
    EXPECT_NEAR(density.mean_uncertainty, std::sqrt(0.16 + 0.09), 1e-12);
}

TEST(SameRun, TheDensityOfASampleIsStudentsT) {
    const SystemModel system = empty_system(Quantity::RI);
    const StandardInRun standard{0, 1234.0, 0.3, 1.0, 0.16};
    const Observation observation{0, 1235.1, 0.4, {{1.0, {}}}, beside({standard})};
    const double scale = std::sqrt(2.0 * 0.16 + 0.09 + 0.16);
    const double expected = boost::math::pdf(boost::math::students_t(6.0), 1.1 / scale) / scale;
    EXPECT_NEAR(std::exp(log_density(expectation_of(0, observation, system), observation, system,
                                     shifts_at(observation, system))),
                expected, 1e-9);
}

TEST(SameRun, CombinesLibraryAndStandardByTheirPrecisions) {
    // By hand, as precisions: the library says where the compound runs today, N(1203, 4 - 0.25 +
    // 2), the standard N(1208, 0.25 + 0.16); the sample scatters within the run beyond that.
    const SystemModel system = system_at(Quantity::RI, {1200.0}, 2.0);
    const StandardInRun standard{0, 1208.0, 0.4, 1.0, 0.25};
    const RunShift shift{3.0, 2.0};
    const double of_library = 1.0 / (4.0 - 0.25 + 2.0);
    const double of_standard = 1.0 / (0.25 + 0.16);
    const double mean = (of_library * 1203.0 + of_standard * 1208.0) / (of_library + of_standard);
    const double variance = 1.0 / (of_library + of_standard);
    const CandidateDensity density =
        density_in_run({&system.candidates[0], &standard}, shift, system);
    EXPECT_EQ(density.basis, Basis::same_run);
    EXPECT_NEAR(density.location, mean, 1e-9);
    EXPECT_NEAR(density.scale, std::sqrt(variance + 0.25), 1e-9);
    EXPECT_NEAR(density.mean_uncertainty, std::sqrt(variance), 1e-9);
    EXPECT_EQ(density.runs, 4U);
}

TEST(SameRun, CombinesRfValuesOnTheArcsineScale) {
    const SystemModel system = system_at(Quantity::Rf, {0.40}, 0.05);
    const StandardInRun standard{0, 0.46, 0.01, 1.0, 2e-4};
    const double error =
        0.01 * 0.5 / std::sqrt(0.46 * 0.54); // d arcsin sqrt x = dx / 2 sqrt(x(1-x))
    const double of_library = 1.0 / (0.0025 - 2e-4);
    const double of_standard = 1.0 / (2e-4 + error * error);
    const double mean =
        (of_library * std::asin(std::sqrt(0.40)) + of_standard * std::asin(std::sqrt(0.46))) /
        (of_library + of_standard);
    const CandidateDensity density = density_in_run({&system.candidates[0], &standard}, {}, system);
    EXPECT_NEAR(density.location, mean, 1e-9);
    EXPECT_NEAR(density.mean, std::pow(std::sin(mean), 2), 1e-9);
    EXPECT_NEAR(density.scale, std::sqrt(1.0 / (of_library + of_standard) + 2e-4), 1e-9);
}

TEST(SameRun, AStandardOutweighsAnUncertainShift) {
    const SystemModel system = system_at(Quantity::RI, {1200.0}, 2.0);
    const StandardInRun standard{0, 1225.0, 0.2, 1.0, 0.25};
    const CandidateDensity density =
        density_in_run({&system.candidates[0], &standard}, {0.0, 900.0}, system);
    EXPECT_NEAR(density.location, 1225.0, 0.05);
    EXPECT_LT(density.scale, 0.8);
}

TEST(SameRun, SeveralReadingsAreWorthMoreThanOne) {
    const SystemModel system = empty_system(Quantity::RI);
    // Their mean scatters by a fourth of the variance; the sample's own reading as before.
    const StandardInRun four{0, 1234.0, 0.15, 4.0, 0.16};
    const CandidateDensity density = density_in_run({nullptr, &four}, {}, system);
    EXPECT_NEAR(density.scale, std::sqrt(0.16 / 4.0 + 0.15 * 0.15 + 0.16), 1e-12);
    EXPECT_NEAR(density.mean_uncertainty, std::sqrt(0.16 / 4.0 + 0.15 * 0.15), 1e-12);
}

TEST(SameRun, AStandardAtTheFrontExpectsTheSampleThere) {
    const SystemModel system = empty_system(Quantity::Rf);
    const Observation at_front{0, 1.0, 0.01, {}, beside({{0, 1.0, 0.01, 1.0, 2e-4}})};
    const Observation below{0, 0.6, 0.01, {}, at_front.standards};
    const auto density_of = [&](const Observation &observation) {
        return std::exp(log_density(expectation_of(0, observation, system), observation, system,
                                    shifts_at(observation, system)));
    };
    // Once of once: (1 + 1/2) / (1 + 1); and a spot of anywhere may be misread as one at the end.
    EXPECT_NEAR(density_of(at_front), 0.75, 0.01);
    EXPECT_LT(density_of(below), 0.01);
    const Observation at_start{0, 0.0, 0.01, {}, beside({{0, 0.0, 0.01, 1.0, 2e-4}})};
    EXPECT_NEAR(density_of(at_start), 0.75, 0.01);
}

TEST(SameRun, AStandardOverridesACensoredLibraryValue) {
    SystemModel system = system_at(Quantity::Rf, {0.999}, 0.03);
    system.candidates[0].always = Censoring::at_front;
    const StandardInRun standard{0, 0.90, 0.01, 1.0, 2e-4};
    const CandidateDensity density = density_in_run({&system.candidates[0], &standard}, {}, system);
    EXPECT_EQ(density.always, Censoring::none);
    EXPECT_NEAR(density.mean, 0.90, 1e-9);
}

TEST(LibraryInRun, IsMovedAndWidenedByTheShift) {
    const SystemModel system = system_at(Quantity::RI, {1200.0}, 2.0);
    const CandidateDensity density =
        density_in_run({&system.candidates[0], nullptr}, {7.0, 2.25}, system);
    EXPECT_EQ(density.basis, Basis::measured);
    EXPECT_DOUBLE_EQ(density.location, 1207.0);
    EXPECT_DOUBLE_EQ(density.scale, 2.5);
    EXPECT_DOUBLE_EQ(density.mean, 1200.0); // as it stands in the library
}

TEST(LibraryInRun, LogDensityIsThatOfTheMixture) {
    const SystemModel system = system_at(Quantity::RI, {1200.0}, 2.0);
    const ShiftMixture shifts{{0.6, {0.0, 1.0}}, {0.3, {9.0, 4.0}}, {0.1, {-20.0, 0.0}}};
    const Observation observation{0, 1208.0, 0.5, shifts};
    double expected = 0.0;
    for (const auto &[weight, shift] : shifts) {
        const double scale = std::sqrt(4.0 + shift.variance + 0.25);
        const double read = 0.25 / (4.0 + 0.25); // share of the reading's own error
        const double freedom = 1.0 / ((1.0 - read) / 12.0 + read / kReadingFreedom);
        expected += weight *
                    boost::math::pdf(boost::math::students_t(freedom),
                                     (1208.0 - 1200.0 - shift.mean) / scale) /
                    scale;
    }
    EXPECT_NEAR(
        std::exp(log_density(expectation_of(0, observation, system), observation, system, shifts)),
        expected, 1e-12);
}

TEST(Expectation, IsUnknownWithoutLibraryAndStandard) {
    const SystemModel system = system_at(Quantity::RI, {1200.0}, 2.0);
    const Observation observation{
        0, 1208.0, 0.5, {}, beside({{0, 1200.0, 0.1, 1.0, 0.1}, {4, 1300.0, 0.1, 1.0, 0.1}})};
    EXPECT_FALSE(expectation_of(1, observation, system).is_known());
    EXPECT_NE(expectation_of(0, observation, system).held, nullptr);
    EXPECT_EQ(expectation_of(0, observation, system).standard->value, 1200.0);
    EXPECT_EQ(expectation_of(4, observation, system).held, nullptr);
    EXPECT_EQ(expectation_of(4, observation, system).standard->value, 1300.0);
}

TEST(SettledObservation, SaysTheSameAsBefore) {
    const SystemModel system = system_at(Quantity::RI, {1000.0, 1200.0, 1500.0}, 2.0);
    const Observation before{0, 1208.0, 0.5};
    Observation settled = before;
    settle(settled, system);
    EXPECT_FALSE(settled.shifts.empty());
    EXPECT_EQ(settled.typical_shift->variance, typical_shift(before, system).variance);
    EXPECT_EQ(
        log_density(expectation_of(1, before, system), before, system, shifts_at(before, system)),
        log_density(expectation_of(1, settled, system), settled, system,
                    shifts_at(settled, system)));
}

TEST(SameRun, StandardsOnThePlateFavourTheProduct) {
    // Invented: front 55 mm, sample at 30.1, product's standard at 30.4, starting material's at
    // 24.2, all read to 0.5 mm; days of the library differ by far more than lanes of this plate.
    const auto rf = [](double mm) { return mm / 55.0; };
    const double error = 0.5 / 55.0;
    const auto standards =
        beside({{0, rf(24.2), error, 1.0, 1e-4}, {1, rf(30.4), error, 1.0, 1e-4}});
    const std::vector<Observation> spot{{0, rf(30.1), error, {}, standards}};
    const std::vector<Observation> alone{{0, rf(30.1), error}};
    const auto product = [](const std::vector<Observation> &observations,
                            const SystemModel &system) {
        const Knowledge knowledge{{system}, {}};
        const Prior prior = with_standards({}, observations, listed_on(observations, knowledge));
        const Ranking ranking =
            rank_candidates(observations, knowledge, nearby_candidates(knowledge), prior);
        for (const RankedCandidate &candidate : ranking.candidates) {
            if (candidate.compound == 1U) {
                return candidate.probability;
            }
        }
        return 0.0;
    };
    const SystemModel library =
        system_at(Quantity::Rf, {rf(24.2), rf(30.4), 0.1, 0.2, 0.75, 0.9}, 0.08);
    EXPECT_GT(product(spot, library), 0.8);
    EXPECT_LT(product(alone, library), 0.6);
    EXPECT_GT(product(spot, empty_system(Quantity::Rf)), 0.8);
}

TEST(Compare, ReportsTheStandardAndTheShiftedLibraryValue) {
    const std::vector<SystemModel> systems{system_at(Quantity::RI, {1200.0, 1300.0}, 2.0)};
    const std::vector<Observation> observations{
        {0, 1206.0, 0.5, {{1.0, {4.0, 1.0}}}, beside({{0, 1205.0, 0.3, 1.0, 0.1}})}};
    const Comparison own = compare(0, observations, systems).at(0);
    EXPECT_EQ(own.basis, Basis::same_run);
    EXPECT_DOUBLE_EQ(own.beside.value(), 1205.0);
    EXPECT_DOUBLE_EQ(own.in_library.value(), 1200.0);
    EXPECT_NEAR(own.deviation, observations[0].value - own.expected, 1e-9);
    EXPECT_GT(own.expected, 1204.0);
    const Comparison other = compare(1, observations, systems).at(0);
    EXPECT_EQ(other.basis, Basis::measured);
    EXPECT_FALSE(other.beside);
    EXPECT_DOUBLE_EQ(other.expected, 1304.0); // moved to the run
    EXPECT_DOUBLE_EQ(other.in_library.value(), 1300.0);
    EXPECT_TRUE(compare(5, observations, systems).empty());
}

} // namespace
} // namespace cospot::matcher
