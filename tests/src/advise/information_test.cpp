// What a further measurement is expected to tell. Entropies and information by hand, after C. E.
// shannon1948.
#include "advise/information.h"

#include "advise/outlook.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace cospot {
namespace {

Forecast at(double mean, double deviation, int outcomes = 41) {
    Forecast forecast;
    forecast.log_density = [mean, deviation](double x) {
        const double z = (x - mean) / deviation;
        return -0.5 * z * z - std::log(deviation * std::sqrt(2.0 * std::numbers::pi));
    };
    for (int i = 0; i < outcomes; ++i) { // evenly over +-2: close enough to quantiles for tests
        forecast.outcomes.push_back(mean + deviation * (4.0 * (i + 0.5) / outcomes - 2.0));
    }
    return forecast;
}

TEST(Information, EntropyInBits) {
    EXPECT_DOUBLE_EQ(entropy_bits(std::vector<double>{0.25, 0.25, 0.25, 0.25}), 2.0);
    EXPECT_DOUBLE_EQ(entropy_bits(std::vector<double>{1.0, 0.0}), 0.0);
    EXPECT_NEAR(entropy_bits(std::vector<double>{0.9, 0.1}), 0.468996, 1e-6);
}

TEST(Information, RemainingCompoundsLeaveUnlistedOut) {
    EXPECT_EQ(remaining_compounds(std::vector<double>{0.5, 0.4, 0.1}), 2U);
    EXPECT_EQ(remaining_compounds(std::vector<double>{0.02, 0.01, 0.97}), 0U);
    EXPECT_EQ(remaining_compounds(std::vector<double>{0.96, 0.04, 0.0}), 1U);
}

TEST(Information, AMeasurementNeverLeavesMoreCandidatesThanThereWere) {
    // Nearly surely unlisted: any clear outcome would bring candidates into the set.
    const std::vector<double> unlikely{0.02, 0.01, 0.97};
    ASSERT_EQ(remaining_compounds(unlikely), 0U);
    EXPECT_EQ(expected_gain(unlikely, {{0.9, 0.1}, {0.9, 0.1}, {0.01, 0.99}}).remaining, 0.0);
    // One of three is in the set, and one outcome brings the others into it.
    const std::vector<double> one{0.95, 0.03, 0.015, 0.005};
    ASSERT_EQ(remaining_compounds(one), 1U);
    const auto gain = expected_gain(one, {{0.01, 0.99}, {0.9, 0.1}, {0.9, 0.1}, {0.5, 0.5}});
    EXPECT_LE(gain.remaining, 1.0);
    EXPECT_GT(gain.remaining, 0.9);
}

TEST(Information, AClearTestGivesOneBitAndABlindOneNone) {
    const std::vector<double> even{0.5, 0.5, 0.0};
    const ExpectedGain clear =
        expected_gain(even, std::vector<Forecast>{at(0, 1), at(50, 1), at(9, 9)});
    EXPECT_NEAR(clear.bits, 1.0, 1e-6);
    EXPECT_NEAR(clear.remaining, 1.0, 1e-6);
    const ExpectedGain blind =
        expected_gain(even, std::vector<Forecast>{at(3, 1), at(3, 1), at(3, 1)});
    EXPECT_NEAR(blind.bits, 0.0, 1e-9);
    EXPECT_NEAR(blind.remaining, 2.0, 1e-9);
}

TEST(Information, ATestThatErrsOneTimeInTenGivesHalfABit) {
    // A binary symmetric channel that errs one time in ten carries 1 - H(0.1) = 0.531 bits.
    const std::vector<double> even{0.5, 0.5};
    const auto gain = expected_gain(even, {{0.9, 0.1}, {0.1, 0.9}});
    EXPECT_NEAR(gain.bits, 1.0 - 0.468996, 1e-5);
    // Then the likelier one has 0.9: both remain in the 95 % set; the last hypothesis is unlisted.
    EXPECT_NEAR(gain.remaining, 1.0, 1e-9);
}

TEST(Information, ContinuousAndDiscreteAgreeWhereOutcomesAreClear) {
    const std::vector<double> three{0.5, 0.3, 0.2};
    const auto continuous =
        expected_gain(three, std::vector<Forecast>{at(0, 1), at(100, 1), at(200, 1)});
    const auto discrete = expected_gain(three, {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}});
    EXPECT_NEAR(continuous.bits, discrete.bits, 1e-6);
    EXPECT_NEAR(discrete.bits, entropy_bits(three), 1e-12);
}

CompoundTraits traits(std::set<std::string> groups, double mass) {
    CompoundTraits result;
    result.groups = std::move(groups);
    result.monoisotopic_mass = mass;
    return result;
}

TEST(Outlook, AStainFavoursItsGroupAndUnlistedLiesBetween) {
    const std::vector<CompoundTraits> candidates{traits({"any", "aldehyde"}, 106.0),
                                                 traits({"any", "ester"}, 150.0)};
    const auto likelihoods =
        stain_likelihoods(*find_stain("2,4-dinitrophenylhydrazine"), candidates, candidates);
    ASSERT_EQ(likelihoods.size(), 3U);
    EXPECT_GT(likelihoods[0][0], 0.8);
    EXPECT_LT(likelihoods[1][0], 0.1);
    EXPECT_GT(likelihoods[2][0], likelihoods[1][0]);
    EXPECT_LT(likelihoods[2][0], likelihoods[0][0]);
    EXPECT_NEAR(likelihoods[2][0] + likelihoods[2][1], 1.0, 1e-12);
}

TEST(Outlook, AMassTellsMassesApartAndIsomersNot) {
    const std::vector<CompoundTraits> candidates{traits({}, 150.07), traits({}, 150.10),
                                                 traits({}, 106.04)};
    const auto likelihoods = mass_likelihoods(candidates, candidates);
    const std::vector<double> before{0.3, 0.3, 0.3, 0.1};
    const auto gain = expected_gain(before, likelihoods);
    EXPECT_GT(gain.bits, 0.8);
    EXPECT_LT(gain.bits, entropy_bits(before) - 0.6); // one bit between the isomers stays, mostly
    for (const auto &row : likelihoods) {
        double sum = 0.0;
        for (const double share : row) {
            sum += share;
        }
        EXPECT_NEAR(sum, 1.0, 1e-12);
    }
}

matcher::SystemModel two_compounds(double first, double second) {
    std::vector<matcher::KnownValue> values;
    for (int run = 0; run < 6; ++run) {
        // Runs shift by up to 12 units together; within a run the two lie `second - first` apart.
        const double shift = 4.0 * (run - 2.5);
        values.push_back({1, run, true, first + shift + 0.3 * (run % 2)});
    }
    for (int run = 0; run < 6; ++run) {
        const double shift = 4.0 * (run - 2.5);
        values.push_back({2, run, true, second + shift - 0.3 * (run % 2)});
    }
    return matcher::fit_system(Technique::gc, Quantity::RI, values);
}

TEST(Outlook, RunningBesideAStandardGainsMoreThanRepeatingAlone) {
    const matcher::SystemModel model = two_compounds(1000.0, 1008.0);
    const std::vector<std::optional<library::CompoundId>> compounds{library::CompoundId{1},
                                                                    library::CompoundId{2}};
    const std::vector<double> even{0.5, 0.5, 0.0};
    const auto again = expected_gain(even, outlook_on(model, compounds).forecasts);
    const auto beside = outlook_beside(model, compounds, 0);
    ASSERT_TRUE(beside);
    EXPECT_GT(expected_gain(even, beside->forecasts).bits, again.bits + 0.2);
}

TEST(Outlook, ACandidateThatNobodyMeasuredCountsAsUnlisted) {
    const matcher::SystemModel model = two_compounds(1000.0, 1300.0);
    const std::vector<std::optional<library::CompoundId>> compounds{
        library::CompoundId{1}, library::CompoundId{7}, std::nullopt};
    const Outlook outlook = outlook_on(model, compounds);
    EXPECT_EQ(outlook.known, 1U);
    EXPECT_EQ(outlook.forecasts[1].log_density(1100.0), outlook.forecasts[3].log_density(1100.0));
    EXPECT_FALSE(outlook_beside(model, compounds, 1));
}

} // namespace
} // namespace cospot
