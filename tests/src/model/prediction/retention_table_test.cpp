#include "model/prediction/retention_table.h"

#include <gtest/gtest.h>

namespace cospot::prediction {
namespace {

RetentionTable small_table() {
    return {{{{1.0}, {}}, {{2.0}, {}}, {{3.0}, {}}},
            {{1.0, 0.0}, {0.5, 0.5}, {0.0, 1.0}},
            {{0, 0, 1.0}, {0, 2, 3.0}, {2, 0, 2.0}, {2, 0, 3.0}}};
}

TEST(RetentionTable, CountsCompoundsWithValues) {
    EXPECT_EQ(measured_compounds(small_table()), 2U);
}

TEST(RetentionTable, KeepsValuesWithTheirCompoundInAPart) {
    const RetentionTable part = part_of(small_table(), {2, 1});
    ASSERT_EQ(part.compounds.size(), 2U);
    EXPECT_EQ(part.compounds[0].descriptors[0], 3.0);
    ASSERT_EQ(part.values.size(), 2U);
    EXPECT_EQ(part.values[1].compound, 0U);
    EXPECT_EQ(part.values[1].value, 3.0);
    EXPECT_EQ(part.mixtures.size(), 3U);
}

TEST(CentredValues, TakesTheMeanOfEachMixtureOff) {
    Eigen::MatrixXd alike(3, 3);
    alike << 1.0, 0.6, 0.0, 0.6, 1.0, 0.2, 0.0, 0.2, 1.0;
    const CentredValues centred = centre(small_table(), alike);
    EXPECT_DOUBLE_EQ(centred.offsets[0], 2.0);
    EXPECT_DOUBLE_EQ(centred.offsets[2], 3.0);
    EXPECT_NEAR(centred.offsets[1], (0.6 * 2.0 + 0.2 * 3.0) / 0.8, 1e-9) << "no value there";
    ASSERT_EQ(centred.compounds[2].values.size(), 2);
    EXPECT_DOUBLE_EQ(centred.compounds[2].values[1] * centred.unit, 1.0);
    EXPECT_TRUE(centred.compounds[1].mixtures.empty());
    // Deviations -1, 0, 0, 1: their root mean square.
    EXPECT_DOUBLE_EQ(centred.unit, std::sqrt(0.5));
}

} // namespace
} // namespace cospot::prediction
