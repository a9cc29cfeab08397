// A question about few peaks reads only a part of a large system; nobody may see that in the
// answer.
#include "../../library/sample_library.h"
#include "evidence/fitted_system.h"
#include "evidence/library_evidence.h"
#include "model/matcher/run_registration.h"
#include "model/matcher/sample.h"

#include <gtest/gtest.h>

#include <fmt/format.h>

#include <cstdint>
#include <random>
#include <string>
#include <utility>
#include <vector>

namespace cospot {
namespace {

constexpr std::size_t kCompounds = 2000;

using Answer = std::vector<std::pair<library::CompoundId, double>>; ///< compounds and probabilities

/// Compounds at random between 500 and 2500 index units, each measured in three runs that differ.
class WithinReach : public testing::Test {
protected:
    WithinReach() {
        library::System column = library::invented_system("column", "");
        column.technique = Technique::gc;
        column.scale = "n-alkane";
        const auto system = library_.system(column);
        std::mt19937 engine(9);
        std::uniform_real_distribution<double> index(500.0, 2500.0);
        std::normal_distribution<double> scatter(0.0, 1.0);
        library::Transaction transaction(library_.database);
        const auto change = library::begin_change(library_.database, "test", "");
        for (std::size_t i = 0; i < kCompounds; ++i) {
            library::Compound compound = library::invented_compound('A', fmt::format("c{}", i));
            compound.inchikey = fmt::format("A{:013}-UHFFFAOYSA-N", i);
            const auto id = library::add_compound(library_.database, compound, change);
            const double expected = index(engine);
            for (const auto &[run, shift] :
                 {std::pair("one", -1.0), std::pair("two", 0.0), std::pair("three", 1.5)}) {
                library::Measurement measurement;
                measurement.compound = id;
                measurement.system = system;
                measurement.quantity = Quantity::RI;
                measurement.run =
                    library::find_or_add_run(library_.database, system, {run, "", "", ""}, change);
                measurement.value = expected + shift + scatter(engine);
                library::insert_measurement(library_.database, measurement, change);
            }
        }
        transaction.commit();
        keep_fits(library_.database);
    }

    static FeatureObservation observation(const std::string &system, Quantity quantity,
                                          double value) {
        FeatureObservation result;
        result.system = system;
        result.quantity = quantity;
        result.value = value;
        result.uncertainty = 0.2;
        return result;
    }

    static std::vector<Feature> features_at(const std::vector<double> &values) {
        std::vector<Feature> features;
        for (const double value : values) {
            Feature feature;
            feature.observations.push_back(observation("column", Quantity::RI, value));
            features.push_back(feature);
        }
        return features;
    }

    static std::vector<Answer> answers(const std::vector<Feature> &features,
                                       const LibraryEvidence &evidence) {
        std::vector<matcher::SampleFeature> observed;
        for (const Feature &feature : features) {
            observed.push_back({observations_of(feature, evidence), {}});
        }
        (void)matcher::register_run(observed, evidence.knowledge, evidence.nearby, {});
        const matcher::SampleRanking ranking =
            matcher::rank_sample(observed, evidence.knowledge, evidence.nearby, {});
        EXPECT_EQ(ranking.compounds, kCompounds);
        std::vector<Answer> answers;
        for (const matcher::Ranking &feature : ranking.features) {
            answers.emplace_back();
            for (const matcher::RankedCandidate &candidate : feature.candidates) {
                answers.back().emplace_back(evidence.compound_ids[candidate.compound],
                                            candidate.probability);
            }
        }
        return answers;
    }

    /// Compares both ways; returns how many candidates the shorter one loaded.
    std::size_t compare_at(const std::vector<double> &values) {
        const auto features = features_at(values);
        const LibraryEvidence all = load_evidence(library_.database, features);
        const LibraryEvidence near =
            load_evidence(library_.database, features, Extent::within_reach);
        EXPECT_EQ(all.compound_ids.size(), kCompounds);
        EXPECT_EQ(possible_compounds(near), kCompounds);
        EXPECT_EQ(answers(features, near), answers(features, all)) << values.front();
        return near.compound_ids.size();
    }

    library::SampleLibrary library_;
};

TEST_F(WithinReach, LoadingOnlyCandidatesWithinReachGivesTheSameAnswer) {
    for (const double value : {1234.5, 500.0, 2499.9}) {
        EXPECT_LT(compare_at({value}), kCompounds / 3) << value;
    }
}

TEST_F(WithinReach, SameAnswerFarFromAllCandidates) {
    EXPECT_GE(compare_at({90.0}), matcher::kClosest);
    EXPECT_GE(compare_at({9000.0}), matcher::kClosest);
    EXPECT_LT(compare_at({90.0, 9000.0}), kCompounds / 3);
}

TEST_F(WithinReach, SameAnswerWhereTheShiftOfTheRunIsEstimated) {
    EXPECT_LT(compare_at({700.0, 702.5, 1300.0, 1310.0, 2001.0}), kCompounds);
    std::vector<double> everywhere;
    for (double value = 500.0; value < 2500.0; value += 20.0) {
        everywhere.push_back(value);
    }
    EXPECT_EQ(compare_at(everywhere), kCompounds);
}

TEST_F(WithinReach, AllCandidatesAreLoadedForSeveralSystems) {
    library::System other = library::invented_system("other", "");
    other.technique = Technique::gc;
    other.scale = "n-alkane";
    library_.value(library::CompoundId{1}, library_.system(other), 0.5);
    std::vector<Feature> features = features_at({1234.5});
    features.front().observations.push_back(observation("other", Quantity::Rf, 0.5));
    EXPECT_EQ(load_evidence(library_.database, features, Extent::within_reach).compound_ids.size(),
              kCompounds);
}

TEST_F(WithinReach, AllCandidatesAreLoadedWithoutAKeptFit) {
    library_.database.execute("DELETE FROM fit");
    EXPECT_EQ(compare_at({1234.5}), kCompounds);
}

} // namespace
} // namespace cospot
