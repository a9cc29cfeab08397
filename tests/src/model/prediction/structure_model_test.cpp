#include "model/prediction/structure_model.h"
#include "synthetic_table.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot::prediction {
namespace {

const std::vector<double> kModifiers = {0.1, 0.3, 0.5, 0.7};

double root_mean_square(const std::vector<double> &errors) {
    double sum = 0.0;
    for (const double error : errors) {
        sum += error * error;
    }
    return std::sqrt(sum / static_cast<double>(errors.size()));
}

TEST(StructureModel, RecoversAKnownLawOnUnseenCompounds) {
    std::mt19937 generator(11);
    const Law law{0.02, 0.0};
    const auto drawn = draw_table(80, kModifiers, law, generator);
    const auto model = fit_structure_model(drawn.table);
    ASSERT_TRUE(model);
    std::vector<double> errors;
    for (int i = 0; i < 100; ++i) {
        const auto unseen = draw_compound(law, generator);
        const auto predictions = predict_retention(*model, unseen.features);
        ASSERT_EQ(predictions.size(), kModifiers.size());
        for (std::size_t e = 0; e < kModifiers.size(); ++e) {
            errors.push_back(predictions[e].location - expected_value(unseen, kModifiers[e]));
        }
    }
    EXPECT_LT(root_mean_square(errors), 0.08) << "values scatter by 0.6 between compounds";
}

TEST(StructureModel, CoversNineInTenOfUnseenCompounds) {
    std::mt19937 generator(12);
    const Law law{0.1, 0.8};
    const auto drawn = draw_table(150, kModifiers, law, generator);
    const auto model = fit_structure_model(drawn.table);
    ASSERT_TRUE(model);
    const auto fresh = draw_table(300, kModifiers, law, generator);
    double covered = 0.0;
    for (const auto &value : fresh.table.values) {
        const auto prediction =
            predict_retention(*model, fresh.table.compounds[value.compound])[value.mixture];
        covered += std::abs(value.value - prediction.location) <= prediction.half_width() ? 1 : 0;
    }
    const double share = covered / static_cast<double>(fresh.table.values.size());
    EXPECT_GT(share, 0.86);
    EXPECT_LT(share, 0.94);
}

TEST(StructureModel, RestoredFromItsFitPredictsTheSame) {
    std::mt19937 generator(17);
    const auto drawn = draw_table(60, kModifiers, {}, generator);
    const auto model = fit_structure_model(drawn.table, {-10.0, 10.0});
    ASSERT_TRUE(model);
    const StructureModel again = structure_model_from(drawn.table, {-10.0, 10.0}, fit_of(*model));
    const auto unseen = draw_compound({}, generator);
    const auto expected = predict_retention(*model, unseen.features);
    const auto repeated = predict_retention(again, unseen.features);
    for (std::size_t e = 0; e < kModifiers.size(); ++e) {
        EXPECT_EQ(repeated[e].location, expected[e].location);
        EXPECT_EQ(repeated[e].scale, expected[e].scale);
        EXPECT_EQ(repeated[e].freedom, expected[e].freedom);
    }
}

TEST(StructureModel, RefusesTooFewCompounds) {
    std::mt19937 generator(13);
    EXPECT_FALSE(fit_structure_model(draw_table(29, {0.3}, {}, generator).table));
    auto drawn = draw_table(30, {0.3}, {}, generator);
    EXPECT_TRUE(fit_structure_model(drawn.table));
    drawn.table.values.pop_back();
    EXPECT_FALSE(fit_structure_model(drawn.table)) << "one of the compounds has no value";
}

TEST(StructureModel, WidensAwayFromTheTrainingStructures) {
    std::mt19937 generator(14);
    const auto drawn = draw_table(60, kModifiers, {}, generator);
    const auto model = fit_structure_model(drawn.table);
    ASSERT_TRUE(model);
    const double near = predict_retention(*model, {{3.0, 3.0, 1.0}, {{3, 1}, {100, 2}}})[1].scale;
    const double far = predict_retention(*model, {{900.0, 0.0, 1.0}, {{77, 5}}})[1].scale;
    EXPECT_GT(far, 2.0 * near);
}

TEST(StructureModel, PredictsAMixtureWithoutValues) {
    std::mt19937 generator(15);
    const Law law{0.02, 0.0};
    auto drawn = draw_table(80, {0.1, 0.3, 0.4, 0.5, 0.7}, law, generator);
    std::erase_if(drawn.table.values, [](const auto &value) { return value.mixture == 2; });
    const auto model = fit_structure_model(drawn.table);
    ASSERT_TRUE(model);
    std::vector<double> errors;
    for (int i = 0; i < 50; ++i) {
        const auto unseen = draw_compound(law, generator);
        errors.push_back(predict_retention(*model, unseen.features)[2].location -
                         expected_value(unseen, 0.4));
    }
    EXPECT_LT(root_mean_square(errors), 0.15);
}

TEST(StructureModel, StaysWithinTheRange) {
    std::mt19937 generator(16);
    auto drawn = draw_table(40, {0.1, 0.7}, {}, generator);
    for (auto &value : drawn.table.values) {
        value.value = std::min(value.value, 2.0);
    }
    const auto model = fit_structure_model(drawn.table, {-10.0, 2.0});
    ASSERT_TRUE(model);
    const auto prediction = predict_retention(*model, {{400.0, 0.0, 1.0}, {{5, 1}, {100, 2}}})[0];
    EXPECT_LE(prediction.location, 2.0);
}

} // namespace
} // namespace cospot::prediction
