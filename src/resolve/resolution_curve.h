#pragma once

#include "resolve/retention_line.h"

#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace cospot::resolve {

/// A stretch of fractions, both ends included.
struct FractionRange {
    double low = 0.0;
    double high = 1.0;

    [[nodiscard]] bool holds(double fraction) const { return fraction >= low && fraction <= high; }
};

/// The retention factors that a run should keep to.
struct RetentionWindow {
    double from = 1.0;
    double to = 10.0;
};

/// Two neighbours in the order of elution, as positions in the list of compounds.
using Pair = std::pair<std::size_t, std::size_t>; // the first leaves first

/// What a run at one fraction would show.
struct CurvePoint {
    double fraction = 0.0;
    std::vector<double> k; ///< in the order of the lines
    std::optional<Pair>
        critical;            ///< the neighbours with the least resolution; none of one compound
    double resolution = 0.0; ///< of them
    std::size_t outside_window = 0; ///< compounds whose k leaves the window
    double window_excess = 0.0;     ///< how far they leave it, summed over log10 k
};

/// Positions of the compounds in the order in which they leave.
[[nodiscard]] std::vector<std::size_t> elution_order(const std::vector<double> &k);

/// What a run at the fraction would show, every compound with the same plate number.
[[nodiscard]] CurvePoint point_at(const std::vector<RetentionLine> &lines, double fraction,
                                  double plate_number, const RetentionWindow &window);

/// Points at every whole 0.001 of the range and at its ends; a pump sets no finer steps.
[[nodiscard]] std::vector<CurvePoint> resolution_curve(const std::vector<RetentionLine> &lines,
                                                       const FractionRange &range,
                                                       double plate_number,
                                                       const RetentionWindow &window);

/// The fraction at which two compounds leave together and change places.
struct Crossing {
    Pair compounds; ///< the first leaves first below the fraction
    double fraction = 0.0;
};

/// All crossings within the range, in the order of fractions.
[[nodiscard]] std::vector<Crossing> crossings_of(const std::vector<RetentionLine> &lines,
                                                 const FractionRange &range);

} // namespace cospot::resolve
