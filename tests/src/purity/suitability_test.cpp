// Resolution, symmetry and plate number around the declared compound's peak.
#include "purity/suitability.h"

#include <gtest/gtest.h>

namespace cospot::purity {
namespace {

JudgedFeature peak(double time_min, double width_half_min) {
    JudgedFeature judged;
    judged.feature.name = std::to_string(static_cast<int>(time_min));
    judged.feature.retention_time_min = time_min;
    judged.feature.shape.width_half_min = width_half_min;
    return judged;
}

JudgedSample two_peaks(double width_min) {
    JudgedSample sample;
    sample.features = {peak(8.0, width_min), peak(9.0, width_min)};
    sample.features[1].role = Role::declared;
    sample.main = 1;
    return sample;
}

TEST(Suitability, ResolutionFromHalfWidthsAndFromTheBase) {
    // D. Harvey, Analytical Chemistry 2.1, resolution of a lemon oil: 8.36 and 9.54 min, widths at
    // the base 0.96 and 0.64 min, R_s = 1.48. The half widths are those of the same Gaussian peaks.
    const JudgedFeature a = peak(8.36, 0.565);
    const JudgedFeature b = peak(9.54, 0.377);
    EXPECT_NEAR(*resolution_of(a.feature, b.feature), 1.48, 0.01);
    EXPECT_NEAR(*resolution_of(b.feature, a.feature), 1.48, 0.01);
    Feature first;
    first.retention_time_min = 8.36;
    first.shape.start_min = 7.88;
    first.shape.end_min = 8.84;
    Feature second;
    second.retention_time_min = 9.54;
    second.shape.start_min = 9.22;
    second.shape.end_min = 9.86;
    EXPECT_NEAR(*resolution_of(first, second), 1.475, 1e-3);
    EXPECT_FALSE(resolution_of(first, a.feature));
}

TEST(Suitability, JudgesTheNearestNeighbour) {
    // 1.18 * 1 / (0.2 + 0.2) = 2.95, 1.18 / 1.6 = 0.74.
    const auto good = suitability_verdicts(two_peaks(0.2), {}, usual_suitability());
    ASSERT_EQ(good.size(), 1U); // of symmetry the table says nothing
    EXPECT_EQ(good[0].verdict, Verdict::meets);
    EXPECT_NE(good[0].found.find("2.9"), std::string::npos) << good[0].found;
    const auto bad = suitability_verdicts(two_peaks(0.8), {}, usual_suitability());
    EXPECT_EQ(bad[0].verdict, Verdict::does_not_meet);
}

TEST(Suitability, ACriterionWithoutItsDataCannotBeTold) {
    JudgedSample sample = two_peaks(0.2);
    const Suitability asked{std::nullopt, 0.8, 1.5, 2000.0};
    auto verdicts = suitability_verdicts(sample, asked, usual_suitability());
    ASSERT_EQ(verdicts.size(), 3U);
    EXPECT_EQ(verdicts[1].verdict, Verdict::cannot_be_told); // symmetry
    EXPECT_EQ(verdicts[2].verdict, Verdict::meets);          // 5.545 (9 / 0.2)^2 = 11229
    EXPECT_EQ(verdicts[2].found, "11229");
    sample.features[1].feature.shape.symmetry = 1.6;
    verdicts = suitability_verdicts(sample, asked, usual_suitability());
    EXPECT_EQ(verdicts[1].verdict, Verdict::does_not_meet);
    // pheur2246, read: the usual limit is 1.8.
    verdicts = suitability_verdicts(sample, {}, usual_suitability());
    ASSERT_EQ(verdicts.size(), 2U);
    EXPECT_EQ(verdicts[1].verdict, Verdict::meets);
}

} // namespace
} // namespace cospot::purity
