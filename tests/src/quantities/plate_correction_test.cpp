#include "quantities/plate_correction.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot::quantities {
namespace {

// Reference values of a published standard system (read); the measured numbers are invented.
std::vector<PlateReference> four_references() {
    return ordered_references({{"diazepam", {0.70, 0.008}, {0.75, 0.010}},
                               {"atropine", {0.15, 0.005}, {0.18, 0.012}},
                               {"chlorprothixene", {0.50, 0.007}, {0.56, 0.009}},
                               {"codeine", {0.29, 0.006}, {0.33, 0.011}}});
}

std::string refusal(const std::vector<PlateReference> &references) {
    try {
        (void)ordered_references(references);
    } catch (const InputError &error) {
        return error.what();
    }
    return "";
}

TEST(OrderedReferences, SortsByMeasuredValue) {
    const auto references = four_references();
    ASSERT_EQ(references.size(), 4U);
    EXPECT_EQ(references[0].compound, "atropine");
    EXPECT_EQ(references[1].compound, "codeine");
    EXPECT_EQ(references[2].compound, "chlorprothixene");
    EXPECT_EQ(references[3].compound, "diazepam");
}

TEST(OrderedReferences, NamesTwoReferencesInTheWrongOrder) {
    const std::string message =
        refusal({{"ester", {0.60, 0.0}, {0.55, 0.0}}, {"ketone", {0.40, 0.0}, {0.58, 0.0}}});
    EXPECT_NE(message.find("ketone measured below ester"), std::string::npos) << message;
}

TEST(OrderedReferences, RefusesEqualReferenceValues) {
    EXPECT_NE(refusal({{"a", {0.3, 0.0}, {0.4, 0.0}}, {"b", {0.5, 0.0}, {0.4, 0.0}}}), "");
}

TEST(OrderedReferences, NamesTwoReferencesThatCoincide) {
    const std::string message =
        refusal({{"ester", {0.40, 0.0}, {0.55, 0.0}}, {"ketone", {0.40, 0.0}, {0.58, 0.0}}});
    EXPECT_NE(message.find("ester and ketone at the same measured R_F of 0.4"), std::string::npos)
        << message;
}

TEST(OrderedReferences, RefusesAReferenceAtStartOrFront) {
    EXPECT_NE(refusal({{"base", {0.0, 0.0}, {0.1, 0.0}}}).find("base"), std::string::npos);
    EXPECT_NE(refusal({{"wax", {1.0, 0.0}, {0.9, 0.0}}}).find("wax"), std::string::npos);
    EXPECT_NE(refusal({{"base", {0.1, 0.0}, {0.0, 0.0}}}), "");
    EXPECT_NE(refusal({{"base", {0.1, 0.0}, {75.0, 0.0}}}), "");
    EXPECT_NE(refusal({{"base", {0.1, -0.1}, {0.2, 0.0}}}), "");
}

// P11 to P13: rule of de Zeeuw et al. 1992 (from memory); measured numbers invented.
TEST(CorrectedRf, MatchesWorkedExamples) {
    const auto references = four_references();
    EXPECT_NEAR(corrected_rf(references, {0.40, 0.0}).value, 0.4505, 0.0005);
    EXPECT_NEAR(corrected_rf(references, {0.10, 0.0}).value, 0.120, 0.0005);
    EXPECT_NEAR(corrected_rf(references, {0.80, 0.0}).value, 0.8333, 0.0005);
}

TEST(CorrectedRf, ReproducesTheReferencesThemselves) {
    const auto references = four_references();
    for (const PlateReference &reference : references) {
        EXPECT_NEAR(corrected_rf(references, reference.measured_rf).value,
                    reference.reference_rf.value, 1e-12)
            << reference.compound;
    }
}

TEST(CorrectedRf, KeepsStartAndFront) {
    const auto references = four_references();
    EXPECT_EQ(corrected_rf(references, {0.0, 0.0}).value, 0.0);
    EXPECT_EQ(corrected_rf(references, {1.0, 0.0}).value, 1.0);
    EXPECT_EQ(corrected_rf(references, {0.0, 0.0}).standard_uncertainty, 0.0);
    EXPECT_EQ(corrected_rf(references, {1.0, 0.0}).standard_uncertainty, 0.0);
}

TEST(CorrectedRf, RisesStrictlyWithTheMeasuredValue) {
    const auto references = four_references();
    double before = -1.0;
    for (int i = 0; i <= 200; ++i) {
        const double corrected = corrected_rf(references, {i / 200.0, 0.0}).value;
        EXPECT_GT(corrected, before);
        before = corrected;
    }
}

TEST(CorrectedRf, LeavesTheValueWithoutReferences) {
    const Uncertain corrected = corrected_rf({}, {0.37, 0.02});
    EXPECT_NEAR(corrected.value, 0.37, 1e-12);
    EXPECT_NEAR(corrected.standard_uncertainty, 0.02, 1e-12);
}

// JCGM 100:2008, 5.1.2, every input moved by its own small step.
TEST(CorrectedRf, UncertaintyEqualsNumericalPropagation) {
    constexpr double kStep = 1e-6;
    for (const double rf : {0.10, 0.22, 0.40, 0.63, 0.80}) {
        auto references = four_references();
        Uncertain observed{rf, 0.006};
        double variance = 0.0;
        const auto add = [&](Uncertain &input) {
            const double kept = input.value;
            input.value = kept + kStep;
            const double up = corrected_rf(references, observed).value;
            input.value = kept - kStep;
            const double down = corrected_rf(references, observed).value;
            input.value = kept;
            variance += std::pow((up - down) / (2.0 * kStep) * input.standard_uncertainty, 2);
        };
        add(observed);
        for (PlateReference &reference : references) {
            add(reference.measured_rf);
            add(reference.reference_rf);
        }
        EXPECT_NEAR(corrected_rf(references, observed).standard_uncertainty, std::sqrt(variance),
                    1e-8)
            << rf;
    }
}

TEST(CorrectedRf, RefusesValuesOffThePlate) {
    EXPECT_THROW((void)corrected_rf(four_references(), {1.01, 0.0}), InputError);
    EXPECT_THROW((void)corrected_rf(four_references(), {-0.01, 0.0}), InputError);
    EXPECT_THROW((void)corrected_rf(four_references(), {0.5, -0.01}), InputError);
}

} // namespace
} // namespace cospot::quantities
