#pragma once

#include "model/matcher/run_prior.h"

#include <vector>

namespace cospot::matcher {

/// A small rectangle of offsets and slopes of a run, about its middle.
struct RunCell {
    double offset = 0.0;
    double slope = 0.0;
    double half_offset = 0.0; ///< half its sides
    double half_slope = 0.0;
    double log_prior = 0.0; ///< logarithm of its probability before the run was seen
    double accident = 0.0;  ///< probability of an accident, given that the run lies here
    double log_evidence = 0.0;
    double weight = 0.0; ///< probability given the run

    /// Where a place of the run lies on the library's line scale.
    [[nodiscard]] double in_library(double on_line, const RunPrior &prior) const {
        return (on_line - offset + slope * prior.centre) / (1.0 + slope);
    }
};

/// Cells that cover all that a run may be, none wider than `step` on the scale of the line at any
/// of the places up to `farthest` from the centre, unless they would be too many.
[[nodiscard]] std::vector<RunCell> all_cells(const RunPrior &prior, double step, double farthest);

/// Each cell cut in four (in two where a side is short enough already).
[[nodiscard]] std::vector<RunCell> refined(const std::vector<RunCell> &cells, const RunPrior &prior,
                                           double step, double farthest);

/// Half of what the shift varies by within a cell, as a standard deviation on the scale of the
/// line.
[[nodiscard]] double blur_of(const RunCell &cell, double distance);

/// Sets the weights from priors and evidence and leaves out the cells that hold less than
/// `negligible` of all.
void weigh(std::vector<RunCell> &cells, double negligible);

} // namespace cospot::matcher
