// Candidates near an observation: what is left out must not matter.
#include "model/matcher/nearby.h"

#include "shared/student_t.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <set>

namespace cospot::matcher {
namespace {

CandidateDensity density(std::size_t compound, double location, double scale, double freedom) {
    CandidateDensity result;
    result.compound = compound;
    result.location = result.mean = location;
    result.scale = scale;
    result.freedom = freedom;
    result.log_constant = student_t_constant(freedom);
    result.runs = 3;
    return result;
}

/// 2000 compounds on indices from 500 to 3000, with spreads of 0.5 to 5 and heavy to light tails.
SystemModel crowded() {
    std::mt19937 engine(7);
    std::uniform_real_distribution<double> location(500.0, 3000.0);
    std::uniform_real_distribution<double> scale(0.5, 5.0);
    const std::vector<double> freedoms{2.5, 4.0, 9.0, 40.0};
    SystemModel system;
    system.quantity = Quantity::RI;
    for (std::size_t compound = 0; compound < 2000; ++compound) {
        system.candidates.push_back(density(compound, location(engine), scale(engine),
                                            freedoms[compound % freedoms.size()]));
    }
    system.unlisted = fit_unlisted(Quantity::RI, system.candidates, 2.0);
    return system;
}

TEST(Nearby, WhatIsLeftOutIsNegligible) {
    const SystemModel system = crowded();
    const NearbyCandidates nearby(system);
    for (const double value : {499.0, 777.7, 1500.0, 2999.0}) {
        for (const RunShift shift : {RunShift{}, RunShift{4.0, 9.0}}) {
            const auto positions = nearby.near(value, 0.5, ShiftMixture{{1.0, shift}});
            double all = 0.0;
            for (const CandidateDensity &candidate : system.candidates) {
                all += std::exp(log_density(candidate, Quantity::RI, value, 0.5, shift));
            }
            double near = 0.0;
            for (const std::uint32_t position : positions) {
                near += std::exp(
                    log_density(system.candidates[position], Quantity::RI, value, 0.5, shift));
            }
            EXPECT_NEAR(near / all, 1.0, 5e-3) << value;
            EXPECT_LT(positions.size(), system.candidates.size());
            const std::set<std::uint32_t> distinct(positions.begin(), positions.end());
            EXPECT_EQ(distinct.size(), positions.size());
        }
    }
}

/// Kept fits are read only as far as candidates reach.
TEST(Nearby, AnExcerptOfAFitFindsTheSameCandidates) {
    SystemModel system = crowded();
    for (CandidateDensity &candidate : system.candidates) {
        candidate.freedom = 40.0; // lighter tails than a reading's own error has
    }
    system.candidates.push_back(density(system.candidates.size(), 9000.0, 50.0, 40.0));
    const NearbyCandidates whole(system);
    const auto compounds = [](const SystemModel &of, const std::vector<std::uint32_t> &positions) {
        std::set<std::size_t> found;
        for (const std::uint32_t position : positions) {
            found.insert(of.candidates[position].compound);
        }
        return found;
    };
    for (double value = 600.0; value < 2900.0; value += 7.3) {
        const double width = whole.reach().width(0.5, 2.0);
        SystemModel part = system;
        std::erase_if(part.candidates, [&](const CandidateDensity &candidate) {
            return std::abs(candidate.location - value) > width;
        });
        EXPECT_LT(part.candidates.size(), system.candidates.size());
        EXPECT_EQ(compounds(part, NearbyCandidates(part).near(value, 0.5, 0.0, 2.0)),
                  compounds(system, whole.near(value, 0.5, 0.0, 2.0)))
            << value;
    }
}

TEST(Nearby, TheClosestAreAlwaysThere) {
    SystemModel system;
    system.quantity = Quantity::RI;
    for (std::size_t i = 0; i < 60; ++i) {
        system.candidates.push_back(density(i, 1000.0 + 100.0 * static_cast<double>(i), 1.0, 30.0));
    }
    const NearbyCandidates nearby(system);
    const auto around = nearby.near(3040.0, 0.0, 0.0);
    ASSERT_EQ(around.size(), 20U);
    EXPECT_EQ(around.front(), 11U);
    EXPECT_EQ(around.back(), 30U);
    EXPECT_EQ(nearby.near(900.0, 0.0, 0.0).size(), 10U);
    // What the shift may still be widens the reach.
    EXPECT_EQ(nearby.near(3900.0, 0.0, 0.0, 2000.0).size(), 41U);
}

TEST(Nearby, WhatIsLeftOutOfAMixtureIsNegligible) {
    const SystemModel system = crowded();
    const NearbyCandidates nearby(system);
    const ShiftMixture shifts{{0.5, {0.0, 1.0}}, {0.3, {-40.0, 1.0}}, {0.2, {5.0, 100.0}}};
    const auto density_of = [&](const CandidateDensity &candidate) {
        double sum = 0.0;
        for (const auto &[weight, shift] : shifts) {
            sum += weight * std::exp(log_density(candidate, Quantity::RI, 1500.0, 0.5, shift));
        }
        return sum;
    };
    double all = 0.0;
    for (const CandidateDensity &candidate : system.candidates) {
        all += density_of(candidate);
    }
    double near = 0.0;
    const auto positions = nearby.near(1500.0, 0.5, shifts);
    for (const std::uint32_t position : positions) {
        near += density_of(system.candidates[position]);
    }
    EXPECT_NEAR(near / all, 1.0, 5e-3);
    EXPECT_LT(positions.size(), system.candidates.size() / 2);
}

TEST(Nearby, CensoredReadingsAndCompoundsAreNeverOmitted) {
    SystemModel system;
    system.quantity = Quantity::Rf;
    for (std::size_t i = 0; i < 96; ++i) {
        const double rf = 0.01 * static_cast<double>(i);
        CandidateDensity candidate = density(i, to_model_scale(Quantity::Rf, rf), 0.01, 30.0);
        candidate.mean = rf;
        candidate.always = i == 0 ? Censoring::at_start : Censoring::none;
        system.candidates.push_back(candidate);
    }
    const NearbyCandidates nearby(system);
    EXPECT_EQ(nearby.near(0.0, 0.01, 0.0).size(), 96U);
    const auto positions = nearby.near(0.8, 0.01, 0.0);
    EXPECT_EQ(positions.front(), 0U); // held as censored only
    EXPECT_LT(positions.size(), 60U);
}

} // namespace
} // namespace cospot::matcher
