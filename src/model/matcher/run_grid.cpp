#include "model/matcher/run_grid.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace cospot::matcher {

namespace {

constexpr double kMostCells = 4000.0;

double normal_below(double x) {
    return 0.5 * std::erfc(-x / std::numbers::sqrt2);
}

/// Probability between two points of a distribution of the given scale.
template <class Below>
double between(double middle, double half, double scale, const Below &below) {
    return below((middle + half) / scale) - below((middle - half) / scale);
}

/// Sets what was believed of a cell.
void set_prior(RunCell &cell, const RunPrior &prior) {
    const double usual = (1.0 - prior.accident) *
                         between(cell.offset, cell.half_offset, prior.usual_offset, normal_below) *
                         between(cell.slope, cell.half_slope, prior.usual_slope, normal_below);
    const double accident =
        prior.accident *
        between(cell.offset, cell.half_offset, prior.accident_offset, accident_below) *
        between(cell.slope, cell.half_slope, prior.accident_slope, accident_below);
    const double sum = std::max(usual + accident, 1e-300);
    cell.log_prior = std::log(sum);
    cell.accident = accident / sum;
}

} // namespace

std::vector<RunCell> all_cells(const RunPrior &prior, double step, double farthest) {
    const double offsets = kFarthestAccident * prior.accident_offset;
    const double slopes = kFarthestAccident * prior.accident_slope;
    double across = std::max(1.0, std::ceil(2.0 * offsets / step));
    double along = std::max(1.0, std::ceil(2.0 * slopes * farthest / step));
    const double excess = std::sqrt(across * along / kMostCells);
    if (excess > 1.0) {
        across = std::max(1.0, std::floor(across / excess));
        along = std::max(1.0, std::floor(along / excess));
    }
    // Odd numbers: the usual run lies in the middle of a cell.
    across += std::fmod(across + 1.0, 2.0);
    along += std::fmod(along + 1.0, 2.0);
    std::vector<RunCell> cells;
    for (double i = 0.0; i < across; i += 1.0) {
        for (double j = 0.0; j < along; j += 1.0) {
            RunCell cell;
            cell.half_offset = offsets / across;
            cell.half_slope = slopes / along;
            cell.offset = -offsets + (2.0 * i + 1.0) * cell.half_offset;
            cell.slope = -slopes + (2.0 * j + 1.0) * cell.half_slope;
            set_prior(cell, prior);
            cells.push_back(cell);
        }
    }
    return cells;
}

std::vector<RunCell> refined(const std::vector<RunCell> &cells, const RunPrior &prior, double step,
                             double farthest) {
    std::vector<RunCell> fine;
    for (const RunCell &cell : cells) {
        const int across = 2.0 * cell.half_offset > step ? 2 : 1;
        const int along = 2.0 * cell.half_slope * farthest > step ? 2 : 1;
        for (int i = 0; i < across; ++i) {
            for (int j = 0; j < along; ++j) {
                RunCell part = cell;
                part.half_offset /= across;
                part.half_slope /= along;
                part.offset += (2 * i + 1 - across) * part.half_offset;
                part.slope += (2 * j + 1 - along) * part.half_slope;
                set_prior(part, prior);
                fine.push_back(part);
            }
        }
    }
    return fine;
}

double blur_of(const RunCell &cell, double distance) {
    return std::hypot(cell.half_offset, cell.half_slope * distance) / std::numbers::sqrt3;
}

void weigh(std::vector<RunCell> &cells, double negligible) {
    double largest = -1e300;
    for (const RunCell &cell : cells) {
        largest = std::max(largest, cell.log_prior + cell.log_evidence);
    }
    double sum = 0.0;
    for (RunCell &cell : cells) {
        cell.weight = std::exp(cell.log_prior + cell.log_evidence - largest);
        sum += cell.weight;
    }
    std::erase_if(cells, [&](const RunCell &cell) { return cell.weight < negligible * sum; });
    sum = 0.0;
    for (const RunCell &cell : cells) {
        sum += cell.weight;
    }
    for (RunCell &cell : cells) {
        cell.weight /= sum;
    }
}

} // namespace cospot::matcher
