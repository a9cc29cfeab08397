// Densities of candidates and of unlisted compounds, and the scale they live on.
#include "model/matcher/candidate_density.h"
#include "model/matcher/reading_error.h"
#include "model/matcher/retention_scale.h"
#include "model/matcher/system_model.h"
#include "model/matcher/unlisted_density.h"
#include "shared/student_t.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace cospot::matcher {
namespace {

CandidateDensity normal_like(double location, double scale) {
    CandidateDensity candidate;
    candidate.location = location;
    candidate.mean = location;
    candidate.scale = scale;
    candidate.freedom = 1e6;
    candidate.log_constant = student_t_constant(candidate.freedom);
    candidate.runs = 3;
    return candidate;
}

double area_under(const auto &log_density_at, double low, double high) {
    constexpr int steps = 200000;
    const double width = (high - low) / steps;
    double area = 0.0;
    for (int i = 0; i < steps; ++i) {
        area += std::exp(log_density_at(low + (i + 0.5) * width)) * width;
    }
    return area;
}

TEST(RetentionScale, ReadsBack) {
    for (const double rf : {0.0, 0.03, 0.5, 0.97, 1.0}) {
        EXPECT_NEAR(from_model_scale(Quantity::Rf, to_model_scale(Quantity::Rf, rf)), rf, 1e-12);
    }
    EXPECT_NEAR(from_model_scale(Quantity::k, to_model_scale(Quantity::k, 3.5)), 3.5, 1e-12);
    for (const Quantity ratio : {Quantity::RRT, Quantity::r}) {
        EXPECT_NEAR(to_model_scale(ratio, 0.1), -1.0, 1e-12);
        EXPECT_NEAR(from_model_scale(ratio, to_model_scale(ratio, 0.45)), 0.45, 1e-12);
    }
    EXPECT_EQ(to_model_scale(Quantity::RI, 1234.0), 1234.0);
}

TEST(RetentionScale, SlopeIsTheDerivative) {
    for (const Quantity quantity :
         {Quantity::Rf, Quantity::k, Quantity::RI, Quantity::RRT, Quantity::r}) {
        const double x = 0.3;
        const double step = 1e-6;
        const double numeric =
            (to_model_scale(quantity, x + step) - to_model_scale(quantity, x - step)) / (2 * step);
        EXPECT_NEAR(scale_slope(quantity, x), numeric, 1e-6);
    }
}

TEST(RetentionScale, OnlyRfIsCensoredAndOnlyAtItsEnds) {
    EXPECT_EQ(censoring(Quantity::Rf, 0.0), Censoring::at_start);
    EXPECT_EQ(censoring(Quantity::Rf, 1.0), Censoring::at_front);
    EXPECT_EQ(censoring(Quantity::Rf, 0.5), Censoring::none);
    EXPECT_EQ(censoring(Quantity::k, 0.0), Censoring::none);
}

TEST(CandidateDensity, HasTheStudentTDensityOfTheTables) {
    // Student t with 4 degrees of freedom: density 0.375 at 0 and 0.2147 at 1 (closed form
    // 3/8 (1 + t^2/4)^(-5/2), any statistics handbook).
    CandidateDensity candidate = normal_like(1000.0, 1.0);
    candidate.freedom = 4.0;
    candidate.log_constant = student_t_constant(4.0);
    EXPECT_NEAR(std::exp(log_density(candidate, Quantity::RI, 1000.0, 0.0)), 0.375, 1e-9);
    EXPECT_NEAR(std::exp(log_density(candidate, Quantity::RI, 1001.0, 0.0)),
                0.375 * std::pow(1.25, -2.5), 1e-9);
}

TEST(CandidateDensity, AddsTheUncertaintyOfTheReadingInQuadrature) {
    CandidateDensity candidate = normal_like(1000.0, 3.0);
    candidate.freedom = kReadingFreedom; // as the reading's
    candidate.log_constant = student_t_constant(candidate.freedom);
    EXPECT_NEAR(log_density(candidate, Quantity::RI, 1000.0, 4.0),
                candidate.log_constant - std::log(5.0), 1e-12);
    EXPECT_NEAR(spread_in_units(candidate, Quantity::RI, 4.0), 5.0, 1e-12);
}

TEST(CandidateDensity, InnerDensityAndCensoredEndsSumToOne) {
    for (const double rf : {0.05, 0.5, 0.9}) {
        CandidateDensity candidate = normal_like(to_model_scale(Quantity::Rf, rf), 0.08);
        candidate.mean = rf;
        const double low = to_model_scale(Quantity::Rf, kCensoredMargin);
        const double high = to_model_scale(Quantity::Rf, 1 - kCensoredMargin);
        const auto at = [&](double x) {
            return log_density(candidate, Quantity::Rf, from_model_scale(Quantity::Rf, x), 0.0);
        };
        const double ends = std::exp(log_density(candidate, Quantity::Rf, 0.0, 0.0)) +
                            std::exp(log_density(candidate, Quantity::Rf, 1.0, 0.0));
        EXPECT_NEAR(area_under(at, low + 1e-9, high - 1e-9) + ends, 1.0, 1e-3) << rf;
    }
}

TEST(CandidateDensity, AlwaysAtTheFrontIsExpectedThereAgain) {
    CandidateDensity candidate = normal_like(std::numbers::pi / 2, 0.05);
    candidate.mean = 1.0;
    candidate.always = Censoring::at_front;
    const double at_front = std::exp(log_density(candidate, Quantity::Rf, 1.0, 0.0));
    EXPECT_NEAR(at_front, 3.5 / 4.0, 1e-9);
    EXPECT_LT(std::exp(log_density(candidate, Quantity::Rf, 0.0, 0.0)), 1e-6);
}

TEST(Overlap, IsThatOfTwoNormalDistributions) {
    // Two normal densities of equal spread whose means lie d spreads apart share 2 Phi(-d/2):
    // 0.6171 at d = 1 (normal table).
    EXPECT_NEAR(overlap(normal_like(0.0, 1.0), normal_like(1.0, 1.0)), 0.6171, 2e-3);
    EXPECT_NEAR(overlap(normal_like(0.0, 1.0), normal_like(0.0, 1.0)), 1.0, 1e-9);
    EXPECT_LT(overlap(normal_like(0.0, 1.0), normal_like(20.0, 1.0)), 1e-6);
}

TEST(Overlap, OfUnequalDensitiesIsTheIntegralOfTheSmallerOne) {
    for (const double freedom : {3.0, 7.0, 60.0}) {
        for (const double distance : {0.0, 0.4, 2.0, 9.0}) {
            for (const double scale : {1.0, 1.0000001, 1.3, 8.0}) {
                CandidateDensity a = normal_like(5.0, scale);
                CandidateDensity b = normal_like(5.0 + distance, 1.0);
                for (CandidateDensity *one : {&a, &b}) {
                    one->freedom = freedom;
                    one->log_constant = student_t_constant(freedom);
                }
                const auto smaller = [&](double x) {
                    return std::min(log_density(a, Quantity::RI, x, 0.0),
                                    log_density(b, Quantity::RI, x, 0.0));
                };
                // What lies beyond 400 scales is less than 1e-6 of a density with 3 degrees.
                const double integral = area_under(smaller, -3000.0, 3000.0);
                EXPECT_NEAR(overlap(a, b), integral, 2e-3) << freedom << ' ' << distance;
                EXPECT_DOUBLE_EQ(overlap(a, b), overlap(b, a));
                EXPECT_GE(most_overlap(a, b), overlap(a, b));
                b.freedom *= 1.0 + 1e-9; // no longer the same: summed over a grid
                EXPECT_NEAR(overlap(a, b), integral, 5e-3) << freedom << ' ' << distance;
            }
        }
    }
}

TEST(UnlistedDensity, SumsToOneOverThePlate) {
    std::vector<CandidateDensity> candidates;
    for (const double rf : {0.2, 0.4, 0.45, 0.6}) {
        candidates.push_back(normal_like(to_model_scale(Quantity::Rf, rf), 0.03));
    }
    const UnlistedDensity unlisted = fit_unlisted(Quantity::Rf, candidates, 0.03);
    const auto at = [&](double x) {
        return log_density(unlisted, Quantity::Rf, from_model_scale(Quantity::Rf, x), 0.0);
    };
    const double low = to_model_scale(Quantity::Rf, kCensoredMargin) + 1e-9;
    const double high = to_model_scale(Quantity::Rf, 1 - kCensoredMargin) - 1e-9;
    const double ends = std::exp(log_density(unlisted, Quantity::Rf, 0.0, 0.0)) +
                        std::exp(log_density(unlisted, Quantity::Rf, 1.0, 0.0));
    EXPECT_NEAR(area_under(at, low, high) + ends, 1.0, 0.15);
}

/// Compounds with heavy and light tails at the given values.
std::vector<CandidateDensity> spread_over(Quantity quantity, std::initializer_list<double> values) {
    std::vector<CandidateDensity> candidates;
    for (const double value : values) {
        candidates.push_back(normal_like(to_model_scale(quantity, value), 0.03));
        candidates.back().mean = value;
        candidates.back().freedom = candidates.size() % 2 == 0 ? 2.0 : 30.0;
        candidates.back().log_constant = student_t_constant(candidates.back().freedom);
    }
    return candidates;
}

void expect_alike(Quantity quantity, double value, double uncertainty,
                  const std::vector<CandidateDensity> &candidates) {
    const UnlistedDensity density = fit_unlisted(quantity, candidates, 0.03);
    const double unlisted = log_density(density, quantity, value, uncertainty);
    for (const CandidateDensity &candidate : candidates) {
        EXPECT_NEAR(log_density(candidate, quantity, value, uncertainty), unlisted, 1e-3)
            << value << " +- " << uncertainty << " where " << candidate.mean << " is expected";
    }
}

TEST(VagueReading, HasTheSameDensityForEveryCompound) {
    const std::vector<CandidateDensity> indices =
        spread_over(Quantity::RI, {700.0, 900.0, 905.0, 1300.0, 2500.0});
    for (const double value : {900.0, 1100.0, 4000.0}) {
        for (const double uncertainty : {1e6, 1e9, 1e12}) {
            expect_alike(Quantity::RI, value, uncertainty, indices);
        }
    }
    expect_alike(Quantity::k, 3.0, 1e5, spread_over(Quantity::k, {0.1, 0.2, 1.0, 3.0, 60.0}));
    expect_alike(Quantity::RRT, 1.0, 1e5, {}); // nothing is known of the system
    std::vector<CandidateDensity> spots = spread_over(Quantity::Rf, {0.0, 0.1, 0.3, 0.8, 1.0});
    spots.front().always = Censoring::at_start;
    spots.back().always = Censoring::at_front;
    for (const double value : {0.0, 0.005, 0.02, 0.3, 0.98, 1.0}) {
        expect_alike(Quantity::Rf, value, 1e5, spots);
    }
}

TEST(VagueReading, DensityIsContinuousAtZeroUncertainty) {
    std::vector<CandidateDensity> spots = spread_over(Quantity::Rf, {0.0, 0.1, 0.3, 0.8, 1.0});
    spots.front().always = Censoring::at_start;
    spots.back().always = Censoring::at_front;
    const UnlistedDensity unlisted = fit_unlisted(Quantity::Rf, spots, 0.03);
    for (const double value : {0.0, 0.05, 0.3, 1.0}) {
        constexpr double hardly_any = 1e-7;
        EXPECT_NEAR(log_density(unlisted, Quantity::Rf, value, hardly_any),
                    log_density(unlisted, Quantity::Rf, value, 0.0), 1e-4);
        for (const CandidateDensity &spot : spots) {
            EXPECT_NEAR(log_density(spot, Quantity::Rf, value, hardly_any),
                        log_density(spot, Quantity::Rf, value, 0.0), 1e-4)
                << value << ' ' << spot.mean;
        }
    }
    const auto indices = spread_over(Quantity::RI, {700.0, 900.0, 1300.0});
    const UnlistedDensity columns = fit_unlisted(Quantity::RI, indices, 2.0);
    for (const double value : {900.0, 1000.0, 5000.0}) { // the last far outside
        EXPECT_NEAR(log_density(columns, Quantity::RI, value, 1e-6),
                    log_density(columns, Quantity::RI, value, 0.0), 1e-6);
    }
}

TEST(VagueReading, DensityOfUnlistedIntegratesToOne) {
    // Of a compound that is not listed: on a column, beyond whose range almost nothing lies.
    const auto indices = spread_over(Quantity::RI, {700.0, 900.0, 905.0, 1300.0});
    const UnlistedDensity unlisted = fit_unlisted(Quantity::RI, indices, 2.0);
    for (const double uncertainty : {1e4, 1e5}) {
        const auto at = [&](double x) {
            return log_density(unlisted, Quantity::RI, x, uncertainty);
        };
        EXPECT_NEAR(area_under(at, -40.0 * uncertainty, 40.0 * uncertainty), 1.0, 0.02);
    }
}

TEST(UnlistedDensity, IsNeverNarrowerThanThreeSpreads) {
    const std::vector<CandidateDensity> same(20, normal_like(1000.0, 2.0));
    EXPECT_DOUBLE_EQ(fit_unlisted(Quantity::RI, same, 2.0).bandwidth, 6.0);
}

TEST(UnlistedDensity, NothingIsImpossibleFarOutside) {
    const std::vector<CandidateDensity> some{normal_like(900, 2.0), normal_like(1200.0, 2.0)};
    const UnlistedDensity unlisted = fit_unlisted(Quantity::RI, some, 2.0);
    EXPECT_TRUE(std::isfinite(log_density(unlisted, Quantity::RI, 5000.0, 0.0)));
    EXPECT_LT(log_density(unlisted, Quantity::RI, 5000.0, 0.0),
              log_density(unlisted, Quantity::RI, 1000.0, 0.0));
}

TEST(SystemModel, MeanIsThatOfTheRuns) {
    // Two readings in run 1 count as one run.
    const SystemModel model =
        fit_system(Technique::gc, Quantity::RI,
                   {{0, 1, true, 1000.0}, {0, 1, true, 1002.0}, {0, 2, true, 1007.0}});
    ASSERT_EQ(model.candidates.size(), 1U);
    EXPECT_DOUBLE_EQ(model.candidates[0].mean, 1004.0);
    EXPECT_EQ(model.candidates[0].runs, 2U);
    EXPECT_DOUBLE_EQ(model.within_run_variance, 2.0);
}

TEST(SystemModel, AStatedUncertaintyWidensTheDensityAndLowersTheWeight) {
    const auto one = [](double uncertainty) {
        return fit_system(Technique::gc, Quantity::RI, {{0, 1, true, 1000.0, uncertainty}})
            .candidates[0];
    };
    // One value: the spread of 3 assumed for the new reading and for the mean, and 15 of its own.
    EXPECT_NEAR(one(0.0).scale, std::sqrt(18.0), 1e-9);
    EXPECT_NEAR(one(15.0).scale, std::sqrt(18.0 + 225.0), 1e-9);
    EXPECT_NEAR(one(15.0).mean_uncertainty, std::sqrt(9.0 + 225.0), 1e-9);
    const auto two = fit_system(Technique::gc, Quantity::RI,
                                {{0, 1, true, 1000.0, 0.0}, {0, 2, true, 1012.0, 15.0}})
                         .candidates[0];
    EXPECT_LT(two.mean, 1002.0);
    EXPECT_GT(two.mean, 1000.0);
    // In one run, too.
    const auto same_run = fit_system(Technique::gc, Quantity::RI,
                                     {{0, 1, true, 1000.0, 0.0}, {0, 1, true, 1012.0, 15.0}})
                              .candidates[0];
    EXPECT_LT(same_run.mean, 1001.0);
}

TEST(SystemModel, ValuesThatDisagreeAreMarkedAndLeaveTheOthersAlone) {
    const SystemModel model = fit_system(Technique::tlc, Quantity::Rf,
                                         {{0, 1, true, 0.76},
                                          {0, 2, true, 0.11},
                                          {1, 1, true, 0.40},
                                          {2, 1, true, 0.31},
                                          {2, 2, true, 0.33}});
    EXPECT_TRUE(model.candidates[0].disagrees);
    EXPECT_FALSE(model.candidates[1].disagrees);
    EXPECT_FALSE(model.candidates[2].disagrees);
    EXPECT_LT(model.candidates[1].scale, 0.05);
}

TEST(SystemModel, UnnamedRunsCountEach) {
    const SystemModel model =
        fit_system(Technique::gc, Quantity::RI, {{0, 1, false, 1000.0}, {0, 1, false, 1002.0}});
    EXPECT_EQ(model.candidates[0].runs, 2U);
    EXPECT_EQ(model.within_run_variance, 0.0);
}

TEST(SystemModel, OneRunIsLessCertainThanMany) {
    std::vector<KnownValue> values{{0, 0, true, 1000.0}};
    for (int run = 0; run < 10; ++run) {
        values.push_back({1, run, true, 1100.0 + (run % 2)});
        values.push_back({2, run, true, 1200.0 + (run % 2)});
    }
    std::sort(values.begin(), values.end(),
              [](const auto &a, const auto &b) { return a.compound < b.compound; });
    const SystemModel model = fit_system(Technique::gc, Quantity::RI, values);
    EXPECT_GT(model.candidates[0].scale, model.candidates[1].scale);
    EXPECT_EQ(find_candidate(model, 7), nullptr);
    EXPECT_EQ(find_candidate(model, 2)->compound, 2U);
}

TEST(SystemModel, NotesCompoundsThatAreAlwaysCensored) {
    const SystemModel model =
        fit_system(Technique::tlc, Quantity::Rf,
                   {{0, 1, true, 1.0}, {0, 2, true, 0.995}, {1, 1, true, 0.5}, {1, 2, true, 1.0}});
    EXPECT_EQ(model.candidates[0].always, Censoring::at_front);
    EXPECT_EQ(model.candidates[1].always, Censoring::none);
}

} // namespace
} // namespace cospot::matcher
