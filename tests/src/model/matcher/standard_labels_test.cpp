// Labels of standards that were exchanged or are wrong.
#include "model/matcher/standard_labels.h"

#include "shifting_library.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <set>

namespace cospot::matcher {
namespace {

/// An invented plate's compounds: R_F 0.15 to 0.85 in five runs each, whose spots scatter by
/// `scatter` on the model scale.
SystemModel plate_system(double scatter) {
    std::mt19937 engine(12);
    std::normal_distribution<double> normal(0.0, scatter);
    std::vector<KnownValue> values;
    for (std::size_t compound = 0; compound < 15; ++compound) {
        const double rf = 0.15 + 0.05 * static_cast<double>(compound);
        for (int run = 0; run < 5; ++run) {
            const double scaled = to_model_scale(Quantity::Rf, rf) + normal(engine);
            values.push_back({compound, run, true, from_model_scale(Quantity::Rf, scaled)});
        }
    }
    return fit_system(Technique::tlc, Quantity::Rf, values);
}

/// Readings of compounds as they are, each with the label of another one; `moved` in R_F.
std::vector<LabelledReading> readings_of(const SystemModel &system,
                                         const std::vector<std::size_t> &compounds,
                                         const std::vector<std::size_t> &labels,
                                         double moved = 0.0) {
    std::vector<LabelledReading> readings;
    for (std::size_t i = 0; i < compounds.size(); ++i) {
        readings.push_back({labels[i], system.candidates[compounds[i]].mean + moved, 0.005});
    }
    return readings;
}

TEST(StandardLabels, CorrectOnesAreKept) {
    const SystemModel system = plate_system(0.03);
    const LabelCheck check = check_labels(readings_of(system, {2, 6, 11}, {2, 6, 11}), system);
    EXPECT_FALSE(check.is_doubted());
    EXPECT_GT(check.as_given, 0.95);
    EXPECT_EQ(check.trusted, (std::vector<bool>{true, true, true}));
    EXPECT_EQ(check.would_be, (std::vector<std::optional<std::size_t>>{2, 6, 11}));
}

TEST(StandardLabels, AnExchangeIsFound) {
    const SystemModel system = plate_system(0.03);
    const LabelCheck check = check_labels(readings_of(system, {2, 6, 11}, {2, 11, 6}), system);
    EXPECT_EQ(check.fault, LabelFault::exchanged);
    EXPECT_LT(check.as_given, 0.05);
    EXPECT_EQ(check.would_be, (std::vector<std::optional<std::size_t>>{2, 6, 11}));
    EXPECT_EQ(check.trusted, (std::vector<bool>{true, false, false}));
}

TEST(StandardLabels, TwoStandardsAloneCanBeExchanged) {
    const SystemModel system = plate_system(0.03);
    const LabelCheck check = check_labels(readings_of(system, {2, 11}, {11, 2}), system);
    EXPECT_EQ(check.fault, LabelFault::exchanged);
    EXPECT_EQ(check.trusted, (std::vector<bool>{false, false}));
}

TEST(StandardLabels, AReversedOrderIsFound) {
    const SystemModel system = plate_system(0.03);
    const LabelCheck check =
        check_labels(readings_of(system, {1, 4, 8, 13}, {13, 8, 4, 1}), system);
    EXPECT_EQ(check.fault, LabelFault::reversed);
    EXPECT_EQ(check.would_be, (std::vector<std::optional<std::size_t>>{1, 4, 8, 13}));
    EXPECT_EQ(check.trusted, std::vector<bool>(4, false));
}

TEST(StandardLabels, OneThatIsSomethingElseIsFound) {
    // The third stands where none of the labelled compounds runs.
    const SystemModel system = plate_system(0.03);
    const LabelCheck check =
        check_labels(readings_of(system, {2, 6, 0, 13}, {2, 6, 10, 13}), system);
    EXPECT_EQ(check.fault, LabelFault::one_wrong);
    EXPECT_EQ(check.would_be, (std::vector<std::optional<std::size_t>>{2, 6, std::nullopt, 13}));
    EXPECT_EQ(check.trusted, (std::vector<bool>{true, true, false, true}));
}

TEST(StandardLabels, AWholePlateThatIsMovedHasRightLabels) {
    const SystemModel system = plate_system(0.03);
    for (const double moved : {-0.08, 0.08}) {
        const LabelCheck check =
            check_labels(readings_of(system, {3, 6, 9, 12}, {3, 6, 9, 12}, moved), system);
        EXPECT_FALSE(check.is_doubted()) << moved;
        EXPECT_GT(check.as_given, 0.9) << moved;
    }
}

TEST(StandardLabels, ARunOfIndicesThatIsMovedHasRightLabels) {
    const SystemModel system = shifting_system(even_indices(20), 0.5);
    std::vector<LabelledReading> readings;
    for (const std::size_t compound : {2U, 7U, 11U, 16U}) {
        readings.push_back({compound, system.candidates[compound].mean + 15.0, 0.2});
    }
    EXPECT_FALSE(check_labels(readings, system).is_doubted());
    std::swap(readings[1].compound, readings[2].compound);
    EXPECT_EQ(check_labels(readings, system).fault, LabelFault::exchanged);
}

TEST(StandardLabels, ACompoundThatTheLibraryLacksIsTrusted) {
    const SystemModel system = plate_system(0.03);
    auto readings = readings_of(system, {2, 6, 11}, {2, 11, 6});
    readings.push_back({99, 0.33, 0.005});
    const LabelCheck check = check_labels(readings, system);
    EXPECT_EQ(check.fault, LabelFault::exchanged);
    EXPECT_TRUE(check.trusted[3]);
    EXPECT_EQ(check.would_be[3], std::optional<std::size_t>(99));
    // And nothing is said where the library holds none of them.
    const std::vector<LabelledReading> unknown{{98, 0.2, 0.005}, {99, 0.33, 0.005}};
    EXPECT_FALSE(check_labels(unknown, system).is_doubted());
    EXPECT_EQ(check_labels(unknown, system).as_given, 1.0);
    EXPECT_FALSE(check_labels({}, system).is_doubted());
}

TEST(StandardLabels, AReadingAtTheEndsIsTrusted) {
    const SystemModel system = plate_system(0.03);
    auto readings = readings_of(system, {2, 6}, {2, 6});
    readings.push_back({11, 1.0, 0.005});
    const LabelCheck check = check_labels(readings, system);
    EXPECT_FALSE(check.is_doubted());
    EXPECT_TRUE(check.trusted[2]);
}

TEST(StandardLabels, TwoLanesOfOneStandardAreNotAnExchange) {
    const SystemModel system = plate_system(0.03);
    auto readings = readings_of(system, {2, 6, 6, 11}, {2, 6, 6, 11});
    readings[1].value += 0.01;
    EXPECT_FALSE(check_labels(readings, system).is_doubted());
}

TEST(StandardLabels, NeighboursThatRunTogetherAreLeftAsTheyAre) {
    // Where two compounds run at one height an exchange cannot be seen.
    const SystemModel system = plate_system(0.08);
    auto readings = readings_of(system, {6, 7, 12}, {7, 6, 12});
    readings[0].value = readings[1].value = 0.5 * (readings[0].value + readings[1].value);
    EXPECT_FALSE(check_labels(readings, system).is_doubted());
}

TEST(StandardLabels, FindsExchangesAndSeldomFlagsSoundPlates) {
    // 100 invented plates with four standards at least 0.1 apart whose readings scatter as the
    // library's; on every second one two neighbours or others have each other's label.
    const SystemModel system = plate_system(0.02);
    std::mt19937 engine(21);
    std::normal_distribution<double> normal(0.0, std::sqrt(system.spread.variance));
    int flagged = 0;
    int flagged_wrongly = 0;
    for (int plate = 0; plate < 100; ++plate) {
        std::set<std::size_t> chosen; // even numbers stand 0.1 apart
        while (chosen.size() < 4) {
            chosen.insert(2 * (engine() % 8));
        }
        const std::vector<std::size_t> compounds(chosen.begin(), chosen.end());
        std::vector<LabelledReading> readings;
        for (const std::size_t compound : compounds) {
            const double scaled = system.candidates[compound].location + normal(engine);
            readings.push_back({compound, from_model_scale(Quantity::Rf, scaled), 0.005});
        }
        const bool is_exchanged = plate % 2 == 1;
        std::size_t first = engine() % 4;
        std::size_t second = (first + 1 + engine() % 3) % 4;
        if (is_exchanged) {
            std::swap(readings[first].compound, readings[second].compound);
        }
        const bool is_doubted = check_labels(readings, system).is_doubted();
        flagged += is_exchanged && is_doubted ? 1 : 0;
        flagged_wrongly += !is_exchanged && is_doubted ? 1 : 0;
    }
    EXPECT_GE(flagged, 47);
    EXPECT_LE(flagged_wrongly, 1);
}

} // namespace
} // namespace cospot::matcher
