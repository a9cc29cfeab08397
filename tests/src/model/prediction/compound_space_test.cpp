#include "model/prediction/compound_space.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot::prediction {
namespace {

TEST(FingerprintSimilarity, SharesSmallerOverLargerCounts) {
    const CountFingerprint a = {{1, 2}, {5, 1}};
    const CountFingerprint b = {{1, 3}, {7, 1}};
    EXPECT_DOUBLE_EQ(fingerprint_similarity(a, b), 2.0 / (3.0 + 1.0 + 1.0));
    EXPECT_DOUBLE_EQ(fingerprint_similarity(b, a), 0.4);
    EXPECT_DOUBLE_EQ(fingerprint_similarity(a, a), 1.0);
    EXPECT_DOUBLE_EQ(fingerprint_similarity(a, {}), 0.0);
    EXPECT_DOUBLE_EQ(fingerprint_similarity({}, {}), 0.0);
}

TEST(DescriptorScale, DropsWhatDoesNotVaryAndCompressesTheRest) {
    const double e = std::exp(1.0);
    const std::vector<CompoundFeatures> training = {{{7.0, 0.0}, {}}, {{7.0, e - 1.0}, {}}};
    const DescriptorScale scale = fit_scale(training);
    ASSERT_EQ(scale.used, std::vector<std::size_t>{1});
    // ln(1 + x) is 0 and 1: mean 0.5, standard deviation 0.5.
    EXPECT_NEAR(scaled(scale, training[0])[0], -1.0, 1e-12);
    EXPECT_NEAR(scaled(scale, training[1])[0], 1.0, 1e-12);
    EXPECT_NEAR(scaled(scale, {{7.0, -(e - 1.0)}, {}})[0], -3.0, 1e-12);
    EXPECT_NEAR(scaled(scale, {{7.0, 1e9}, {}})[0], 6.0, 1e-12) << "bounded";
}

TEST(CompoundKernel, IsTheWeightedSumOfItsViews) {
    const std::vector<CompoundFeatures> compounds = {
        {{0.0}, {{1, 1}}}, {{2.0}, {{1, 1}, {2, 1}}}, {{9.0}, {{3, 1}}}};
    const DescriptorScale scale = fit_scale(compounds);
    const CompoundGrams grams = compare_compounds(scale, compounds, compounds);
    EXPECT_NEAR(grams.linear.trace() / 3.0, 1.0, 1e-12);
    EXPECT_NEAR(grams.squared_distance(0, 0), 0.0, 1e-12);
    const double step = scaled(scale, compounds[0])[0] - scaled(scale, compounds[1])[0];
    EXPECT_NEAR(grams.squared_distance(0, 1), step * step, 1e-12);
    const Eigen::MatrixXd kernel = compound_kernel(grams, {1.0, 2.0, 3.0, 4.0});
    EXPECT_NEAR(kernel(0, 1),
                grams.linear(0, 1) + 2.0 * std::exp(-0.5 * step * step / 0.49) + 3.0 * 0.5 + 4.0,
                1e-12);
    EXPECT_GT(Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(kernel).eigenvalues()[0], 0.0);
}

} // namespace
} // namespace cospot::prediction
