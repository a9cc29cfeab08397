// The tabulated density of what any listed compound shows, against a plain sum.
#include "model/matcher/listed_density.h"

#include "shared/student_t.h"

#include <boost/math/distributions/students_t.hpp>
#include <gtest/gtest.h>

#include <cmath>
#include <numeric>
#include <random>

namespace cospot::matcher {
namespace {

/// 40 compounds between 900 and 1300 with spreads of 0.8 to 4 and light and heavy tails.
SystemModel varied() {
    std::mt19937 engine(11);
    std::uniform_real_distribution<double> location(900.0, 1300.0);
    std::uniform_real_distribution<double> scale(0.8, 4.0);
    SystemModel system;
    system.quantity = Quantity::RI;
    for (std::size_t compound = 0; compound < 40; ++compound) {
        CandidateDensity candidate;
        candidate.compound = compound;
        candidate.location = candidate.mean = location(engine);
        candidate.scale = scale(engine);
        candidate.freedom = compound % 2 == 0 ? 3.0 : 25.0;
        candidate.log_constant = student_t_constant(candidate.freedom);
        system.candidates.push_back(candidate);
    }
    return system;
}

std::vector<std::uint32_t> all_of(const SystemModel &system) {
    std::vector<std::uint32_t> positions(system.candidates.size());
    std::iota(positions.begin(), positions.end(), 0U);
    return positions;
}

/// The sum of the candidates' densities by Boost.
double direct(const SystemModel &system, const Prior &prior, double total, double blur, double x) {
    double sum = 0.0;
    for (const CandidateDensity &candidate : system.candidates) {
        const double scale = std::hypot(candidate.scale, blur);
        const boost::math::students_t shape(candidate.freedom);
        sum += prior.weight_of(candidate.compound) / total *
               boost::math::pdf(shape, (x - candidate.location) / scale) / scale;
    }
    return sum;
}

void expect_like_sum(const SystemModel &system, const Prior &prior, double total, double blur) {
    const ListedDensity density(system, all_of(system), prior, total, blur, {880.0, 1320.0});
    double highest = 0.0;
    for (double x = 900.0; x < 1300.0; x += 0.37) {
        highest = std::max(highest, direct(system, prior, total, blur, x));
    }
    for (double x = 881.0; x < 1319.0; x += 0.37) {
        const double expected = direct(system, prior, total, blur, x);
        // Between the points of the table a peak is cut by about 1 %, and tails end at 8 spreads.
        EXPECT_NEAR(density.at(x), expected, 0.02 * expected + 0.003 * highest) << x;
    }
}

TEST(ListedDensity, IsTheMeanOfTheCandidatesDensities) {
    const SystemModel system = varied();
    expect_like_sum(system, {}, 40.0, 0.0);
}

TEST(ListedDensity, IsSmoothedByTheUncertaintyOfTheRun) {
    const SystemModel system = varied();
    expect_like_sum(system, {}, 40.0, 6.0);
}

TEST(ListedDensity, WeighsCompoundsByThePrior) {
    const SystemModel system = varied();
    Prior prior;
    prior.weights.assign(40, 1.0);
    prior.weights[3] = 20.0;
    prior.factors[7] = 5.0;
    expect_like_sum(system, prior, 39.0 + 20.0 + 4.0, 0.0);
}

TEST(ListedDensity, HalfTheCandidatesHaveHalfTheArea) {
    // Half of the compounds: half of all, but for the tails.
    const SystemModel system = varied();
    std::vector<std::uint32_t> half = all_of(system);
    half.resize(20);
    const ListedDensity density(system, half, {}, 40.0, 0.0, {800.0, 1400.0});
    double area = 0.0;
    for (double x = 800.0; x < 1400.0; x += 0.1) {
        area += 0.1 * density.at(x);
    }
    EXPECT_NEAR(area, 0.5, 0.01);
}

TEST(ListedDensity, LeavesOutCompoundsWithCensoredValuesOnly) {
    SystemModel system = varied();
    const double place = system.candidates[5].location;
    const ListedDensity before(system, all_of(system), {}, 40.0, 0.0, {800.0, 1400.0});
    system.candidates[5].always = Censoring::at_front;
    const ListedDensity after(system, all_of(system), {}, 40.0, 0.0, {800.0, 1400.0});
    EXPECT_GT(before.at(place), after.at(place) + 0.5 / 40.0 * 0.35 / system.candidates[5].scale);
}

TEST(ListedDensity, IsNothingOutsideItsStretchOrWithoutCandidates) {
    const SystemModel system = varied();
    const ListedDensity density(system, all_of(system), {}, 40.0, 0.0, {1000.0, 1100.0});
    EXPECT_EQ(density.at(999.0), 0.0);
    EXPECT_EQ(density.at(1150.0), 0.0);
    EXPECT_GT(density.at(1050.0), 0.0);
    const ListedDensity none(system, {}, {}, 40.0, 0.0, {1000.0, 1100.0});
    EXPECT_EQ(none.at(1050.0), 0.0);
}

} // namespace
} // namespace cospot::matcher
