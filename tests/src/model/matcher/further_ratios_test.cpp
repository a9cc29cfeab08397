// Log-likelihood ratios of other evidence in the ranking and in the groups.
#include "model/matcher/groups.h"
#include "model/matcher/sample.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot::matcher {
namespace {

/// Six compounds on one index system, the first two at the same place.
std::vector<SystemModel> one_system() {
    std::vector<KnownValue> values;
    std::size_t compound = 0;
    for (const double index : {1000.0, 1000.0, 1100.0, 1200.0, 1300.0, 1400.0}) {
        for (int run = 0; run < 3; ++run) {
            values.push_back({compound, run, true, index + run - 1});
        }
        ++compound;
    }
    return {fit_system(Technique::gc, Quantity::RI, values)};
}

const std::vector<Observation> kAt1000{{0, 1000.0, 0.5}};

double share_of(const Ranking &ranking, std::size_t compound) {
    for (const RankedCandidate &candidate : ranking.candidates) {
        if (candidate.compound == compound) {
            return candidate.probability;
        }
    }
    return 0.0;
}

Ranking ranked(const std::vector<SystemModel> &systems, const std::vector<double> &further) {
    const std::vector<SampleFeature> features{{kAt1000, further}};
    return rank_sample(features, {systems, {}}, nearby_candidates({systems, {}}), {})
        .features.front();
}

TEST(FurtherRatios, MultiplyTheOddsAgainstUnlisted) {
    const auto systems = one_system();
    const std::vector<double> further{std::log(3.0), 0.0, 0.0, 0.0, 0.0, std::log(0.5)};
    const Ranking plain = ranked(systems, {});
    const Ranking with = ranked(systems, further);
    ASSERT_GE(plain.candidates.size(), 3U); // those farther off are out of reach
    for (const RankedCandidate &candidate : plain.candidates) {
        const double before = candidate.probability / plain.unlisted;
        const double after = share_of(with, candidate.compound) / with.unlisted;
        EXPECT_NEAR(after / before, std::exp(further[candidate.compound]), 1e-9);
    }
    EXPECT_EQ(with.candidates[0].compound, 0U);
}

TEST(FurtherRatios, FurtherEvidenceSplitsAGroupOfCoelutingCompounds) {
    const auto systems = one_system();
    const std::vector<std::string> skeletons{"A", "B"};
    const auto groups = [&](double factor) {
        const std::vector<double> further{std::log(factor), 0.0, 0.0, 0.0, 0.0, 0.0};
        const Ranking ranking = ranked(systems, further);
        return group_candidates(ranking, kAt1000, systems, skeletons, further).size();
    };
    EXPECT_EQ(groups(1.5), 1U);
    EXPECT_EQ(groups(4.0), 2U);
}

} // namespace
} // namespace cospot::matcher
