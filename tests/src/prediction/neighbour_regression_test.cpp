#include "prediction/neighbour_regression.h"
#include "synthetic_table.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot::prediction {
namespace {

const std::vector<double> kModifiers = {0.2, 0.4, 0.6};
const std::vector<std::size_t> kKnown = {0, 2};

std::vector<double> known_values(const SyntheticCompound &compound) {
    return {expected_value(compound, 0.2), expected_value(compound, 0.6)};
}

TEST(NeighbourRegression, LearnsABendThatAllCompoundsShare) {
    std::mt19937 generator(21);
    Law law{0.005, 0.0};
    auto drawn = draw_table(60, kModifiers, law, generator);
    for (auto &value : drawn.table.values) {
        value.value = 0.3 * value.value * value.value; // a straight line misses by up to 0.1
    }
    const auto regression = fit_neighbours(drawn.table, kKnown, 1);
    ASSERT_TRUE(regression);
    double largest = 0.0;
    for (int i = 0; i < 50; ++i) {
        const auto unseen = draw_compound(law, generator);
        auto values = known_values(unseen);
        for (double &value : values) {
            value = 0.3 * value * value;
        }
        const double truth = 0.3 * std::pow(expected_value(unseen, 0.4), 2);
        largest = std::max(
            largest,
            std::abs(predict_from_neighbours(*regression, unseen.features, values).location -
                     truth));
    }
    EXPECT_LT(largest, 0.012);
}

TEST(NeighbourRegression, CarriesItsQuadraticTrendBeyondTheCompounds) {
    std::mt19937 generator(27);
    std::uniform_real_distribution<double> range(0.0, 2.0);
    const auto law = [](double a, double b) { return 0.2 * a * a + 0.5 * b; };
    RetentionTable table{{}, {{0.8, 0.2}, {0.6, 0.4}, {0.4, 0.6}}, {}};
    for (std::size_t c = 0; c < 40; ++c) {
        const double a = range(generator);
        const double b = range(generator);
        table.compounds.push_back(draw_compound({}, generator).features);
        table.values.push_back({c, 0, a});
        table.values.push_back({c, 1, law(a, b)});
        table.values.push_back({c, 2, b});
    }
    const auto regression = fit_neighbours(table, kKnown, 1);
    ASSERT_TRUE(regression);
    const auto beyond = predict_from_neighbours(*regression, table.compounds[0], {3.0, 1.0});
    EXPECT_NEAR(beyond.location, law(3.0, 1.0), 0.1) << "a linear trend gives 1.5";
}

TEST(NeighbourRegression, CoversNineInTen) {
    std::mt19937 generator(22);
    const Law law{0.05, 1.0};
    const auto drawn = draw_table(150, kModifiers, law, generator);
    const auto regression = fit_neighbours(drawn.table, kKnown, 1);
    ASSERT_TRUE(regression);
    const auto fresh = draw_table(1000, kModifiers, law, generator);
    int covered = 0;
    for (std::size_t c = 0; c < 1000; ++c) {
        const auto &values = fresh.table.values;
        const auto prediction = predict_from_neighbours(
            *regression, fresh.table.compounds[c], {values[3 * c].value, values[3 * c + 2].value});
        covered +=
            std::abs(values[3 * c + 1].value - prediction.location) <= prediction.half_width();
    }
    EXPECT_GT(covered, 860);
    EXPECT_LT(covered, 940);
}

TEST(NeighbourRegression, RefusesTooFewCommonCompounds) {
    std::mt19937 generator(23);
    auto drawn = draw_table(25, kModifiers, {}, generator);
    EXPECT_TRUE(fit_neighbours(drawn.table, kKnown, 1));
    drawn.table.values.erase(drawn.table.values.begin());
    EXPECT_FALSE(fit_neighbours(drawn.table, kKnown, 1));
}

TEST(NeighbourRegression, WidensForValuesUnlikeAllOthers) {
    std::mt19937 generator(24);
    const auto drawn = draw_table(60, kModifiers, {}, generator);
    const auto regression = fit_neighbours(drawn.table, kKnown, 1);
    ASSERT_TRUE(regression);
    const auto &typical = drawn.compounds[0];
    const auto values = known_values(typical);
    const double near = predict_from_neighbours(*regression, typical.features, values).scale;
    const double far =
        predict_from_neighbours(*regression, typical.features, {values[0] + 9.0, values[1]}).scale;
    EXPECT_GT(far, 2.0 * near);
}

TEST(NeighbourRegression, StaysWithinReachOfTheKnownValues) {
    std::mt19937 generator(25);
    const auto drawn = draw_table(60, kModifiers, {}, generator);
    const auto regression = fit_neighbours(drawn.table, kKnown, 1, {0.0, 10.0});
    ASSERT_TRUE(regression);
    // Here a compound's value at 0.4 lies between those at 0.2 and 0.6, noise apart.
    const auto wild = predict_from_neighbours(*regression, drawn.table.compounds[0], {-2.0, 5.0});
    EXPECT_GE(wild.location, 0.0);
    EXPECT_LE(wild.location, 5.3);
}

TEST(NeighbourRegression, IsNotLedAstrayByOneGrossError) {
    std::mt19937 generator(26);
    const Law law{0.02, 0.0};
    auto drawn = draw_table(60, kModifiers, law, generator);
    drawn.table.values[3 * 7 + 1].value += 3.0;
    const auto regression = fit_neighbours(drawn.table, kKnown, 1);
    ASSERT_TRUE(regression);
    double sum = 0.0;
    for (int i = 0; i < 50; ++i) {
        const auto unseen = draw_compound(law, generator);
        const auto prediction =
            predict_from_neighbours(*regression, unseen.features, known_values(unseen));
        sum += std::pow(prediction.location - expected_value(unseen, 0.4), 2);
    }
    EXPECT_LT(std::sqrt(sum / 50.0), 0.06);
}

} // namespace
} // namespace cospot::prediction
