// The cells in which a run is looked for.
#include "model/matcher/run_grid.h"

#include "shifting_library.h"

#include <boost/math/distributions/students_t.hpp>
#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace cospot::matcher {
namespace {

RunPrior index_prior() {
    RunPrior prior = run_prior(shifting_system(even_indices(20), 1.0));
    prior.centre = 1300.0;
    return prior;
}

constexpr double kFarthest = 600.0; // index units from the centre

double probability_of(const std::vector<RunCell> &cells) {
    double sum = 0.0;
    for (const RunCell &cell : cells) {
        sum += std::exp(cell.log_prior);
    }
    return sum;
}

/// What the cells of any grid hold: all usual runs, and of accidents those that are not farther off
/// than it looks, in either direction.
double expected_probability(const RunPrior &prior) {
    const boost::math::students_t t4(4.0);
    const double within = 1.0 - 2.0 * boost::math::cdf(t4, -kFarthestAccident);
    return 1.0 - prior.accident + prior.accident * within * within;
}

TEST(RunGrid, CoversThePriorAtAnyStep) {
    for (const double step : {0.3, 1.0, 5.0, 50.0, 1e4}) {
        const RunPrior prior = index_prior();
        EXPECT_NEAR(probability_of(all_cells(prior, step, kFarthest)), expected_probability(prior),
                    1e-9)
            << step;
    }
    for (const Quantity quantity : {Quantity::Rf, Quantity::tR, Quantity::k, Quantity::r}) {
        SystemModel system;
        system.quantity = quantity;
        system.spread.variance = 1e-4;
        const RunPrior prior = run_prior(system);
        EXPECT_NEAR(probability_of(all_cells(prior, 0.02, 2.0)), expected_probability(prior), 1e-9)
            << to_text(quantity);
    }
    EXPECT_GT(expected_probability(index_prior()), 0.98); // the rest is farther than is looked
}

TEST(RunGrid, CellsAreNoWiderThanTheStepAndNotTooMany) {
    const RunPrior prior = index_prior();
    for (const double step : {3.0, 10.0, 50.0}) {
        const auto cells = all_cells(prior, step, kFarthest);
        for (const RunCell &cell : cells) {
            EXPECT_LE(2.0 * cell.half_offset, step * (1.0 + 1e-12));
            EXPECT_LE(2.0 * cell.half_slope * kFarthest, step * (1.0 + 1e-12));
        }
    }
    EXPECT_LT(all_cells(prior, 0.001, kFarthest).size(), 4300U);
}

TEST(RunGrid, TheLikeliestCellIsCentredOnNoShift) {
    for (const double step : {0.7, 3.0, 11.0}) {
        const auto cells = all_cells(index_prior(), step, kFarthest);
        const RunCell &middle = cells[cells.size() / 2];
        EXPECT_NEAR(middle.offset, 0.0, 1e-9);
        EXPECT_NEAR(middle.slope, 0.0, 1e-12);
        for (const RunCell &cell : cells) { // and no cell is likelier
            EXPECT_LE(cell.log_prior, middle.log_prior + 1e-9);
        }
    }
}

TEST(RunGrid, RefiningKeepsTheTotalProbability) {
    const RunPrior prior = index_prior();
    const double step = 6.0;
    auto cells = all_cells(prior, 50.0, kFarthest);
    const double before = probability_of(cells);
    std::size_t count = 0;
    for (int round = 0; round < 8 && cells.size() != count; ++round) {
        count = cells.size();
        cells = refined(cells, prior, step, kFarthest);
        EXPECT_NEAR(probability_of(cells), before, 1e-9) << round;
    }
    EXPECT_EQ(cells.size(), count);
    for (const RunCell &cell : cells) {
        EXPECT_LE(2.0 * cell.half_offset, step);
        EXPECT_LE(2.0 * cell.half_slope * kFarthest, step);
    }
}

TEST(RunGrid, FarCellsCountAsAccidents) {
    const auto cells = all_cells(index_prior(), 2.0, kFarthest);
    EXPECT_LT(cells[cells.size() / 2].accident, 0.02);
    EXPECT_GT(cells.front().accident, 0.999);
    EXPECT_GT(cells.back().accident, 0.999);
}

TEST(RunGrid, ACellConvertsAReadingToTheLibraryScale) {
    const RunPrior prior = index_prior();
    RunCell cell;
    cell.offset = 12.0;
    cell.slope = 0.01;
    for (const double library : {900.0, 1300.0, 1850.0}) {
        const double run = library + cell.offset + cell.slope * (library - prior.centre);
        EXPECT_NEAR(cell.in_library(run, prior), library, 1e-9);
    }
}

TEST(RunGrid, BlurIsTheStandardDeviationOfTheShiftWithinACell) {
    RunCell cell;
    cell.half_offset = 2.0;
    cell.half_slope = 0.005;
    const double distance = 300.0;
    std::mt19937 engine(5);
    std::uniform_real_distribution<double> inside(-1.0, 1.0);
    double squares = 0.0;
    constexpr int draws = 200000;
    for (int i = 0; i < draws; ++i) {
        const double shift =
            cell.half_offset * inside(engine) + cell.half_slope * distance * inside(engine);
        squares += shift * shift;
    }
    EXPECT_NEAR(blur_of(cell, distance), std::sqrt(squares / draws), 0.01);
}

TEST(WeighCells, GivesPosteriorsAndDropsOnlyWhatIsNegligible) {
    const RunPrior prior = index_prior();
    auto cells = all_cells(prior, 10.0, kFarthest);
    std::vector<double> posteriors;
    double sum = 0.0;
    for (RunCell &cell : cells) {
        cell.log_evidence = 2000.0 - 0.5 * std::pow((cell.offset - 15.0) / 4.0, 2); // no overflow
        posteriors.push_back(std::exp(cell.log_prior + cell.log_evidence - 2000.0));
        sum += posteriors.back();
    }
    constexpr double negligible = 1e-6;
    double kept_share = 0.0;
    std::size_t kept_count = 0;
    for (const double posterior : posteriors) {
        kept_share += posterior >= negligible * sum ? posterior / sum : 0.0;
        kept_count += posterior >= negligible * sum ? 1 : 0;
    }
    const std::size_t all = cells.size();
    const auto before = cells;
    weigh(cells, negligible);
    EXPECT_EQ(cells.size(), kept_count);
    EXPECT_LT(cells.size(), all);
    EXPECT_GT(kept_share, 1.0 - negligible * static_cast<double>(all));
    double total = 0.0;
    for (const RunCell &cell : cells) {
        total += cell.weight;
        const double posterior = std::exp(cell.log_prior + cell.log_evidence - 2000.0);
        EXPECT_NEAR(cell.weight, posterior / sum / kept_share, 1e-12);
    }
    EXPECT_NEAR(total, 1.0, 1e-12);
}

} // namespace
} // namespace cospot::matcher
