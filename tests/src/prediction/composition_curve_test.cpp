#include "prediction/composition_curve.h"
#include "synthetic_table.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot::prediction {
namespace {

const std::vector<double> kModifiers = {0.1, 0.25, 0.4, 0.55, 0.7};

TEST(CompositionCurves, AreBetterThanStructureAloneAndCoverNineInTen) {
    std::mt19937 generator(31);
    const Law law{0.03, 1.5};
    const auto drawn = draw_table(80, kModifiers, law, generator);
    const auto model = fit_structure_model(drawn.table, {}, SearchGoal::own_curves);
    ASSERT_TRUE(model);
    const CompositionCurves curves = fit_composition_curves(*model);
    const auto fresh = draw_table(300, kModifiers, law, generator);
    double squares = 0.0;
    double squares_by_structure = 0.0;
    int covered = 0;
    for (std::size_t c = 0; c < 300; ++c) {
        const auto *values = &fresh.table.values[5 * c];
        const auto &compound = fresh.table.compounds[c];
        const auto drawn_through = predict_curve_through(
            curves, compound, {{1, values[1].value}, {3, values[3].value}})[2];
        const auto by_structure = predict_retention(*model, compound)[2];
        squares += std::pow(values[2].value - drawn_through.location, 2);
        squares_by_structure += std::pow(values[2].value - by_structure.location, 2);
        covered += std::abs(values[2].value - drawn_through.location) <= drawn_through.half_width();
    }
    EXPECT_LT(squares, 0.25 * squares_by_structure);
    EXPECT_GT(covered, 0.84 * 300);
    EXPECT_LT(covered, 0.97 * 300);
}

/// What is expected of a compound of the table needs no fit of its own: the curve that leaves it
/// out in closed form gives what a whole fit without it gives, within a fraction of the spread.
TEST(CompositionCurves, OfACompoundOfTheTableAgreeWithAFitWithoutIt) {
    std::mt19937 generator(33);
    auto drawn = draw_table(80, kModifiers, {0.03, 1.0}, generator);
    std::erase_if(drawn.table.values, [](const RetentionValue &value) {
        return value.compound % 5 == 0 && value.mixture == 2; // asked for
    });
    const auto all = fit_structure_model(drawn.table, {}, SearchGoal::own_curves);
    ASSERT_TRUE(all);
    const CompositionCurves curves = fit_composition_curves(*all);
    for (std::size_t out = 0; out < 80; out += 5) {
        std::vector<OwnValue> own;
        std::vector<Eigen::Index> others;
        for (const RetentionValue &value : drawn.table.values) {
            if (value.compound == out) {
                own.push_back({value.mixture, value.value});
            }
        }
        for (std::size_t c = 0; c < 80; ++c) {
            if (c != out) {
                others.push_back(static_cast<Eigen::Index>(c));
            }
        }
        const auto without =
            fit_structure_model(part_of(drawn.table, others), {}, all->curves.parameters);
        ASSERT_TRUE(without);
        const CompositionCurves fitted_without = fit_composition_curves(*without);
        const auto expected =
            predict_curve_through(fitted_without, drawn.table.compounds[out], own)[2];
        const auto closed = predict_curve_through(curves, left_out_curve(all->curves, out), own)[2];
        EXPECT_NEAR(closed.location, expected.location, 0.4 * expected.scale) << out;
        EXPECT_NEAR(closed.half_width() / expected.half_width(), 1.0, 0.1) << out;
    }
}

TEST(CompositionCurves, NarrowWithTheCompoundsOwnValues) {
    std::mt19937 generator(32);
    const auto drawn = draw_table(60, kModifiers, {}, generator);
    const auto model = fit_structure_model(drawn.table, {}, SearchGoal::own_curves);
    ASSERT_TRUE(model);
    const CompositionCurves curves = fit_composition_curves(*model);
    const auto unseen = draw_compound({}, generator);
    const OwnValue first{1, expected_value(unseen, 0.25)};
    const OwnValue second{3, expected_value(unseen, 0.55)};
    const double one = predict_curve_through(curves, unseen.features, {first})[2].scale;
    const double two = predict_curve_through(curves, unseen.features, {first, second})[2].scale;
    EXPECT_LT(two, one);
}

} // namespace
} // namespace cospot::prediction
