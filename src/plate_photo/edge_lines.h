#pragma once

#include "plate_photo/edge_evidence.h"
#include "plate_photo/reduced_photo.h"

#include <vector>

namespace cospot::plate_photo {

/// A straight line that goes more or less downwards through a reduced photo, and the evidence along
/// it, as sums of logarithms of ratios from the upper border down to each row.
struct EdgeLine {
    double top = 0.0;              ///< x at y = 0
    double slope = 0.0;            ///< dx/dy
    std::vector<double> edge_sums; ///< height + 1 values
    /// That the two sides of the line differ in colour, so that it is the border of something and
    /// not a thin line on it.
    std::vector<double> step_sums;
};

/// The lines with the most evidence on one stretch of theirs (the greatest sum of neighbours,
/// Bentley 1984), each at least some pixels from the others there; the best first, at most `most`.
[[nodiscard]] std::vector<EdgeLine> edge_lines(const ReducedPhoto &photo, std::size_t most);

} // namespace cospot::plate_photo
