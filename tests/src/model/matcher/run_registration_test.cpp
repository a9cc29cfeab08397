// How a run lies against the library, found from its features.
#include "model/matcher/run_prior.h"
#include "registered.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot::matcher {
namespace {

TEST(RunRegistration, LargeShiftsAreFoundAndReportedAsAnAccident) {
    const Knowledge knowledge = uneven_library();
    for (const double shift : {-15.0, -5.0, 5.0, 10.0, 15.0}) {
        for (unsigned seed = 0; seed < 5; ++seed) {
            const auto run =
                registered(features_at(twelve_readings(
                               knowledge.systems[0], [&](double x) { return x + shift; }, seed)),
                           knowledge);
            ASSERT_EQ(run.systems.size(), 1U);
            const RegisteredSystem &found = run.systems[0];
            EXPECT_NEAR(found.shift, shift, 1.0) << seed;
            EXPECT_LT(found.uncertainty, 1.0) << shift << ' ' << seed;
            EXPECT_GT(found.accident, 0.9) << shift << ' ' << seed;
            EXPECT_LT(found.second, 0.05) << shift << ' ' << seed;
            EXPECT_TRUE(found.fits) << shift << ' ' << seed;
            EXPECT_EQ(found.readings, 12U);
            for (const SampleFeature &feature : run.features) {
                EXPECT_NEAR(told(feature, knowledge).mean, shift, 1.0) << shift << ' ' << seed;
            }
        }
    }
}

TEST(RunRegistration, AnUnshiftedRunIsNoAccident) {
    const Knowledge knowledge = uneven_library();
    for (unsigned seed = 0; seed < 10; ++seed) {
        const auto run = registered(features_at(twelve_readings(
                                        knowledge.systems[0], [](double x) { return x; }, seed)),
                                    knowledge);
        EXPECT_LT(run.systems.at(0).accident, 0.1) << seed;
        EXPECT_NEAR(run.systems[0].shift, 0.0, 0.5) << seed;
        EXPECT_TRUE(run.systems[0].fits) << seed;
    }
}

TEST(RunRegistration, IsFoundFromFeaturesOfWhichSomeAreUnlisted) {
    const Knowledge knowledge{{shifting_system(even_indices(20), 3.0)}, {}};
    for (const double shift : {-4.0, 0.0, 4.0}) {
        auto values = shifted(knowledge.systems[0], {1, 4, 5, 9, 12, 17}, shift);
        values.insert(values.end(), {1009.0, 1210.0, 1678.0});
        const auto run = registered(features_at(values), knowledge);
        EXPECT_NEAR(run.systems.at(0).shift, shift, 0.5);
        // Six readings of scatter about 0.6 each.
        EXPECT_LT(told(run.features[0], knowledge).variance, 1.0);
        EXPECT_GT(std::sqrt(told(run.features[0], knowledge).variance), 0.1);
    }
}

TEST(RunRegistration, OneFeatureTellsNothingOfItsRun) {
    const Knowledge knowledge{{shifting_system(even_indices(20), 3.0)}, {}};
    const auto run = registered(features_at({1004.0}), knowledge);
    EXPECT_TRUE(run.systems.empty());
    EXPECT_TRUE(run.features[0].observations[0].shifts.empty());
}

TEST(RunRegistration, MoreFeaturesTellMore) {
    const Knowledge knowledge{{shifting_system(even_indices(20), 3.0)}, {}};
    double before = std::sqrt(knowledge.systems[0].shift.variance);
    for (const auto &compounds : std::vector<std::vector<std::size_t>>{
             {1, 4}, {1, 4, 9}, {1, 4, 9, 12, 17}, {1, 2, 4, 6, 9, 11, 12, 15, 17, 18}}) {
        const auto run =
            registered(features_at(shifted(knowledge.systems[0], compounds, 4.0)), knowledge);
        const double deviation = std::sqrt(told(run.features[0], knowledge).variance);
        EXPECT_LT(deviation, before) << compounds.size();
        before = deviation;
        if (compounds.size() > 2) {
            EXPECT_NEAR(run.systems.at(0).shift, 4.0, 0.7) << compounds.size();
        }
    }
}

TEST(RunRegistration, EachSystemHasItsOwnShift) {
    const Knowledge knowledge{
        {shifting_system(even_indices(20), 3.0), shifting_system(even_indices(10), 3.0)}, {}};
    std::vector<SampleFeature> features;
    for (const std::size_t compound : {1U, 3U, 5U, 8U}) {
        features.push_back({{{0, knowledge.systems[0].candidates[compound].location + 3.0, 0.3},
                             {1, knowledge.systems[1].candidates[compound].location - 2.0, 0.3}},
                            {}});
    }
    const auto run = registered(features, knowledge);
    ASSERT_EQ(run.systems.size(), 2U);
    EXPECT_EQ(run.systems[1].system, 1U);
    EXPECT_NEAR(run.systems[0].shift, 3.0, 0.5);
    EXPECT_NEAR(run.systems[1].shift, -2.0, 0.5);
    for (const SampleFeature &feature : run.features) {
        EXPECT_NEAR(typical_shift(feature.observations[1], knowledge.systems[1]).mean, -2.0, 0.7);
    }
}

TEST(RunRegistration, UnlistedFeaturesDoNotNarrowTheShift) {
    // No place explains more than one of them without a steep slope; what is known of the run gets
    // no narrower, and its middle stays about where it was.
    const Knowledge knowledge{{shifting_system(even_indices(20), 3.0)}, {}};
    const auto run = registered(features_at({1013.0, 1238.0, 1676.0}), knowledge);
    const SystemModel &system = knowledge.systems[0];
    for (const SampleFeature &feature : run.features) {
        const RunShift now = told(feature, knowledge);
        const RunShift before =
            typical(prior_shifts(run_prior(system), system, feature.observations[0].value));
        EXPECT_NEAR(now.mean, 0.0, 3.0 * std::sqrt(before.variance));
        EXPECT_GE(now.variance, 0.9 * before.variance);
    }
}

TEST(RunRegistration, UnlistedFeaturesDoNotBiasTheShift) {
    const Knowledge knowledge{{shifting_system(even_indices(20), 3.0)}, {}};
    auto values = shifted(knowledge.systems[0], {1, 5, 9, 13, 17}, 0.0);
    const double agreed = registered(features_at(values), knowledge).systems.at(0).shift;
    for (const double neighbour : {1005.5, 1107.0, 1208.5, 1410.0}) {
        values.push_back(neighbour);
    }
    EXPECT_NEAR(registered(features_at(values), knowledge).systems.at(0).shift, agreed, 0.3);
}

TEST(RunRegistration, KnowingTheShiftReversesTheRanking) {
    // Compounds 20 and 21 stand 4 apart; the run is shifted by 4, and the feature is the first.
    std::vector<double> indices = even_indices(20);
    indices.insert(indices.end(), {2200.0, 2204.0});
    const Knowledge knowledge{{shifting_system(indices, 3.0)}, {}};
    const auto features = features_at(shifted(knowledge.systems[0], {1, 4, 5, 9, 12, 20}, 4.0));
    const auto advantage = [&](const SampleFeature &feature) {
        const auto ratios =
            likelihood_ratios(feature.observations, knowledge, nearby_candidates(knowledge));
        const auto of = [&](std::size_t compound) {
            return std::find_if(ratios.begin(), ratios.end(),
                                [&](const auto &ratio) { return ratio.compound == compound; })
                ->log_ratio;
        };
        return of(20) - of(21);
    };
    EXPECT_LT(advantage(features.back()), 0.0);
    EXPECT_GT(advantage(registered(features, knowledge).features.back()), 2.0);
}

TEST(RunRegistration, CensoredSpotsDoNotCount) {
    std::vector<KnownValue> values;
    for (std::size_t compound = 0; compound < 9; ++compound) {
        for (std::int64_t run = 0; run < 8; ++run) {
            values.push_back(
                {compound, run, true,
                 0.1 + 0.1 * static_cast<double>(compound) + (run % 2 == 0 ? 0.015 : -0.015)});
        }
    }
    const Knowledge knowledge{{fit_system(Technique::tlc, Quantity::Rf, values)}, {}};
    const auto without = registered(features_at({0.32, 0.52, 0.72}, 0.005), knowledge);
    const auto with = registered(features_at({0.32, 0.52, 0.72, 0.0, 1.0}, 0.005), knowledge);
    EXPECT_EQ(with.systems.at(0).readings, 3U);
    EXPECT_NEAR(with.systems[0].shift, without.systems.at(0).shift, 1e-12);
    EXPECT_GT(with.systems[0].shift, 0.0);
    EXPECT_TRUE(registered(features_at({0.32, 0.0, 1.0}, 0.005), knowledge).systems.empty());
}

TEST(RunRegistration, ASlopeIsFound) {
    // As far as one laboratory's offsets go: 8 units in the middle, 0.8 % more along the scale.
    const Knowledge knowledge = uneven_library();
    const double centre = run_prior(knowledge.systems[0]).centre;
    for (unsigned seed = 0; seed < 5; ++seed) {
        const auto moved = [&](double x) { return x + 8.0 + 0.008 * (x - centre); };
        const auto run =
            registered(features_at(twelve_readings(knowledge.systems[0], moved, seed)), knowledge);
        const RegisteredSystem &found = run.systems.at(0);
        EXPECT_NEAR(found.slope, 0.008, 0.0015) << seed;
        EXPECT_NEAR(found.shift, 8.0 + 0.008 / 1.008 * (found.place - 8.0 - centre), 0.7) << seed;
        EXPECT_GT(found.accident, 0.9) << seed;
        for (const SampleFeature &feature : run.features) {
            const double value = feature.observations[0].value;
            EXPECT_NEAR(told(feature, knowledge).mean,
                        value - (centre + (value - 8.0 - centre) / 1.008), 1.0)
                << seed << ' ' << value;
        }
    }
}

/// Thirty compounds in three runs each, with the given scatter on the model scale.
Knowledge invented(Quantity quantity, const std::vector<double> &values, double scatter) {
    std::mt19937 engine(3);
    std::normal_distribution<double> normal(0.0, scatter);
    std::vector<KnownValue> known;
    for (std::size_t compound = 0; compound < values.size(); ++compound) {
        for (int run = 0; run < 3; ++run) {
            const double scaled = to_model_scale(quantity, values[compound]) + normal(engine);
            known.push_back({compound, run, true, from_model_scale(quantity, scaled)});
        }
    }
    return {{fit_system(Technique::gc, quantity, known)}, {}};
}

TEST(RunRegistration, TimesThatAreAllSixPerCentLongerAreFound) {
    const Knowledge knowledge = invented(Quantity::tR, uneven(30, 2.0, 25.0, 6), 0.02);
    std::vector<double> values;
    for (std::size_t compound = 1; compound < 30; compound += 3) {
        values.push_back(1.06 * knowledge.systems[0].candidates[compound].location);
    }
    const auto run = registered(features_at(values, 0.005), knowledge);
    const RegisteredSystem &found = run.systems.at(0);
    EXPECT_NEAR(found.slope, 0.06, 0.005);
    EXPECT_NEAR(found.shift, found.place * (1.0 - 1.0 / 1.06), 0.05);
    EXPECT_GT(found.accident, 0.9);
    EXPECT_TRUE(found.fits);
    for (const SampleFeature &feature : run.features) {
        EXPECT_NEAR(told(feature, knowledge).mean,
                    feature.observations[0].value * (1.0 - 1.0 / 1.06), 0.05);
    }
}

TEST(RunRegistration, RfThatMovesOnTheScaleOfRmIsFound) {
    // R_M larger by 0.2, as a plate in a drier chamber: 0.11 in the middle, less at the ends.
    const Knowledge knowledge = invented(Quantity::Rf, uneven(14, 0.1, 0.9, 2), 0.008);
    const auto in_run = [](double rf) {
        const double rm = std::log10((1.0 - rf) / rf) + 0.2;
        return 1.0 / (1.0 + std::pow(10.0, rm));
    };
    std::vector<double> values;
    std::vector<double> library;
    for (const CandidateDensity &candidate : knowledge.systems[0].candidates) {
        library.push_back(candidate.mean);
        values.push_back(in_run(candidate.mean));
    }
    const auto run = registered(features_at(values, 0.003), knowledge);
    const RegisteredSystem &found = run.systems.at(0);
    const auto middle = std::find_if(values.begin(), values.end(), [&](double value) {
        return std::abs(value - found.place) < 1e-9;
    });
    ASSERT_NE(middle, values.end());
    EXPECT_NEAR(found.shift, *middle - library[static_cast<std::size_t>(middle - values.begin())],
                0.01);
    EXPECT_TRUE(found.fits);
    for (std::size_t i = 0; i < values.size(); ++i) {
        const double scaled = to_model_scale(Quantity::Rf, values[i]);
        EXPECT_NEAR(scaled - told(run.features[i], knowledge).mean,
                    to_model_scale(Quantity::Rf, library[i]), 0.02)
            << library[i];
    }
}

TEST(RunRegistration, TwoEquallyGoodPlacesAreBothKept) {
    // Pairs of compounds 12 apart, and one feature in the middle of each: 6 above or 6 below.
    std::vector<double> indices;
    for (const double pair : {900.0, 1020.0, 1170.0, 1350.0, 1590.0, 1810.0}) {
        indices.insert(indices.end(), {pair, pair + 12.0});
    }
    const Knowledge knowledge{{shifting_system(indices, 0.0)}, {}};
    std::vector<double> values;
    for (std::size_t pair = 0; pair < 6; ++pair) {
        const auto &candidates = knowledge.systems[0].candidates;
        values.push_back(0.5 * (candidates[2 * pair].location + candidates[2 * pair + 1].location));
    }
    const auto run = registered(features_at(values), knowledge);
    EXPECT_GT(run.systems.at(0).second, 0.3);
    EXPECT_LT(run.systems[0].second, 0.7);
    for (const SampleFeature &feature : run.features) {
        double above = 0.0;
        double below = 0.0;
        for (const auto &[weight, shift] : feature.observations[0].shifts) {
            above += std::abs(shift.mean - 6.0) < 1.5 ? weight : 0.0;
            below += std::abs(shift.mean + 6.0) < 1.5 ? weight : 0.0;
        }
        EXPECT_GT(above, 0.25);
        EXPECT_GT(below, 0.25);
        EXPECT_GT(above + below, 0.9);
    }
}

} // namespace
} // namespace cospot::matcher
