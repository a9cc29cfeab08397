// Which readings of a run tell where it lies, and whether they fit the library at all.
#include "registered.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <memory>

namespace cospot::matcher {
namespace {

TEST(RunReadings, DetectsRunsThatFitNothing) {
    const Knowledge knowledge = uneven_library();
    std::mt19937 engine(8);
    std::uniform_real_distribution<double> offset(-12.0, 12.0);
    int refused_wrongly = 0;
    int passed_wrongly = 0;
    for (unsigned seed = 0; seed < 40; ++seed) {
        const double shift = offset(engine);
        const auto one =
            registered(features_at(twelve_readings(
                           knowledge.systems[0], [&](double x) { return x + shift; }, seed)),
                       knowledge);
        refused_wrongly += one.systems.at(0).fits ? 0 : 1;
        const auto other =
            registered(features_at(uneven(12, 900.0, 2100.0, 100 + seed)), knowledge);
        passed_wrongly += other.systems.at(0).fits ? 1 : 0;
    }
    EXPECT_EQ(refused_wrongly, 0);
    EXPECT_LE(passed_wrongly, 4); // by chance some features of a foreign run fit
}

TEST(RunReadings, AFewFeaturesAreNotSaidToFitNothing) {
    const Knowledge knowledge = uneven_library();
    for (unsigned seed = 0; seed < 10; ++seed) {
        EXPECT_TRUE(
            registered(features_at(uneven(4, 900.0, 2100.0, seed)), knowledge).systems.at(0).fits);
    }
}

TEST(RunReadings, VagueReadingsDoNotRegisterTheRun) {
    // Read with an error of 3 where the library's runs scatter by half a unit.
    const Knowledge knowledge = uneven_library();
    std::mt19937 engine(1);
    std::normal_distribution<double> error(0.0, 3.0);
    auto values = twelve_readings(
        knowledge.systems[0], [](double x) { return x; }, 1);
    for (double &value : values) {
        value += error(engine);
    }
    EXPECT_TRUE(registered(features_at(values, 3.0), knowledge).systems.empty());
    EXPECT_FALSE(registered(features_at(values, 0.2), knowledge).systems.empty());
}

TEST(RunReadings, TheShiftOfAFeatureComesFromTheOthers) {
    // The others say 2 above; wherever the feature itself lies, that is what it is told.
    const Knowledge knowledge{{shifting_system(even_indices(20), 3.0)}, {}};
    const auto run_with = [&](double own) {
        auto values = shifted(knowledge.systems[0], {1, 5, 9, 14}, 2.0);
        values.push_back(own);
        return registered(features_at(values), knowledge);
    };
    const double place = knowledge.systems[0].candidates[11].location;
    const auto fitting = run_with(place + 2.0);
    const RunShift expected = told(fitting.features.back(), knowledge);
    EXPECT_NEAR(expected.mean, 2.0, 0.6);
    for (const double off : {-1.0, 0.0, 3.5, 5.0, 9.0, 25.0}) {
        const auto run = run_with(place + off);
        const RunShift own = told(run.features.back(), knowledge);
        EXPECT_NEAR(own.mean, expected.mean, 0.1) << off;
        EXPECT_NEAR(std::sqrt(own.variance), std::sqrt(expected.variance), 0.1) << off;
    }
    // A feature that disagrees is heard by the others.
    EXPECT_GT(std::abs(told(run_with(place + 0.5).features.front(), knowledge).mean -
                       told(run_with(place + 3.5).features.front(), knowledge).mean),
              0.1);
}

TEST(RunReadings, TheOrderOfFeaturesMakesNoDifference) {
    const Knowledge knowledge = uneven_library();
    auto values = twelve_readings(
        knowledge.systems[0], [](double x) { return x + 7.0; }, 1);
    const auto straight = registered(features_at(values), knowledge);
    std::map<double, RunShift> shifts;
    for (const SampleFeature &feature : straight.features) {
        shifts[feature.observations[0].value] = told(feature, knowledge);
    }
    std::mt19937 engine(2);
    for (int i = 0; i < 4; ++i) {
        std::shuffle(values.begin(), values.end(), engine);
        const auto other = registered(features_at(values), knowledge);
        EXPECT_NEAR(other.systems.at(0).shift, straight.systems.at(0).shift, 1e-9);
        EXPECT_NEAR(other.systems[0].uncertainty, straight.systems[0].uncertainty, 1e-9);
        EXPECT_NEAR(other.systems[0].accident, straight.systems[0].accident, 1e-9);
        EXPECT_NEAR(other.systems[0].second, straight.systems[0].second, 1e-9);
        for (const SampleFeature &feature : other.features) {
            const RunShift &expected = shifts.at(feature.observations[0].value);
            EXPECT_NEAR(told(feature, knowledge).mean, expected.mean, 1e-9);
            EXPECT_NEAR(told(feature, knowledge).variance, expected.variance, 1e-9);
        }
    }
}

TEST(RunReadings, ShiftWeightsOfEachFeatureSumToOne) {
    const Knowledge knowledge = uneven_library();
    const auto run = registered(features_at(twelve_readings(
                                    knowledge.systems[0], [](double x) { return x + 7.0; }, 1)),
                                knowledge);
    for (const SampleFeature &feature : run.features) {
        double sum = 0.0;
        for (const WeightedShift &one : feature.observations[0].shifts) {
            EXPECT_GT(one.weight, 0.0);
            EXPECT_GE(one.shift.variance, 0.0);
            sum += one.weight;
        }
        EXPECT_NEAR(sum, 1.0, 1e-9);
    }
}

TEST(RunReadings, ASampleOfVeryManyFeaturesFindsTheShiftOfAll) {
    const Knowledge knowledge{{shifting_system(uneven(400, 900.0, 4000.0, 9), 0.0)}, {}};
    std::vector<double> values;
    for (const CandidateDensity &candidate : knowledge.systems[0].candidates) {
        values.push_back(candidate.location + 3.0);
    }
    const auto run = registered(features_at(values), knowledge);
    EXPECT_EQ(run.systems.at(0).readings, 150U);
    EXPECT_NEAR(run.systems[0].shift, 3.0, 0.5);
    for (const SampleFeature &feature : run.features) {
        EXPECT_NEAR(told(feature, knowledge).mean, 3.0, 0.7);
    }
}

/// The standards of a run, with the library's spread of single readings left to the library.
std::shared_ptr<const StandardsInRun>
standards_at(const SystemModel &system, const std::vector<std::size_t> &compounds, double shift) {
    StandardsInRun standards;
    for (const std::size_t compound : compounds) {
        standards.push_back(
            {compound, system.candidates[compound].location + shift, 0.3, 1.0, 0.04});
    }
    return std::make_shared<const StandardsInRun>(standards);
}

TEST(RunReadings, StandardsAloneFixTheShiftOfTheRun) {
    // Features that are all unlisted, beside three standards of a run that is moved by 11.
    const Knowledge knowledge{{shifting_system(even_indices(20), 1.0)}, {}};
    auto features = features_at({1027.0, 1283.0});
    const auto standards = standards_at(knowledge.systems[0], {2, 9, 16}, 11.0);
    for (SampleFeature &feature : features) {
        feature.observations[0].standards = standards;
    }
    const auto run = registered(features, knowledge);
    EXPECT_EQ(run.systems.at(0).readings, 5U);
    EXPECT_NEAR(run.systems[0].shift, 11.0, 1.0);
    EXPECT_GT(run.systems[0].accident, 0.9);
    for (const SampleFeature &feature : run.features) {
        EXPECT_NEAR(told(feature, knowledge).mean, 11.0, 1.0);
    }
}

TEST(RunReadings, OneMislabelledStandardDoesNotShiftTheRun) {
    const Knowledge knowledge = uneven_library();
    auto features = features_at(twelve_readings(
        knowledge.systems[0], [](double x) { return x; }, 3));
    const auto standards = standards_at(knowledge.systems[0], {30}, 14.0);
    for (SampleFeature &feature : features) {
        feature.observations[0].standards = standards;
    }
    EXPECT_NEAR(registered(features, knowledge).systems.at(0).shift, 0.0, 1.0);
}

TEST(RunReadings, AFeatureAtAStandardDoesNotCountForTheShift) {
    const Knowledge knowledge{{shifting_system(even_indices(20), 1.0)}, {}};
    const auto standards = standards_at(knowledge.systems[0], {2, 9, 16}, 5.0);
    auto features = features_at({standards->front().value + 0.1, 1027.0});
    for (SampleFeature &feature : features) {
        feature.observations[0].standards = standards;
    }
    const auto run = registered(features, knowledge);
    EXPECT_EQ(run.systems.at(0).readings, 4U);
    EXPECT_NEAR(told(run.features[0], knowledge).mean, 5.0, 1.0);
}

TEST(RunReadings, AnEmptySystemTellsNothing) {
    const Knowledge knowledge{{fit_system(Technique::gc, Quantity::RI, {})}, {}};
    EXPECT_TRUE(registered(features_at({1000.0, 1100.0, 1200.0}), knowledge).systems.empty());
}

} // namespace
} // namespace cospot::matcher
