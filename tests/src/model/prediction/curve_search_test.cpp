#include "model/prediction/curve_search.h"
#include "synthetic_table.h"

#include <gtest/gtest.h>

#include <vector>

namespace cospot::prediction {
namespace {

class CurveSearch : public ::testing::Test {
protected:
    CurveSearch() {
        std::mt19937 generator(41);
        table = draw_table(50, {0.1, 0.3, 0.6}, {0.4, 0.0}, generator).table;
        const DescriptorScale scale = fit_scale(table.compounds);
        grams = compare_compounds(scale, table.compounds, table.compounds);
    }
    RetentionTable table;
    CompoundGrams grams;
};

TEST_F(CurveSearch, LowersTheErrorOfLeftOutCompounds) {
    const CurveParameters start;
    const auto found = search_parameters(table, grams);
    const auto error_of = [&](const CurveParameters &parameters) {
        return left_out_error(
            fit_curves(table, compound_kernel(grams, parameters.weights), parameters));
    };
    EXPECT_LT(error_of(found), error_of(start));
}

} // namespace
} // namespace cospot::prediction
