#include "signal/tangent_skim.h"

#include "quantities/domain.h"
#include "signal/peak_finder.h"

#include <algorithm>
#include <cstddef>

namespace cospot::signal {

namespace {

/// Of the height of the large peak, up to which a rider reaches: two peaks of like height are none.
constexpr double kRiderShare = 0.5;

/// The point between `from` and `to`, beyond the top, to which the line from the valley is lowest:
/// that line touches the flank and cuts nothing of the rider.
std::size_t touching_point(const CorrectedTrace &trace, std::size_t valley, std::size_t top,
                           std::size_t end) {
    const auto slope = [&](std::size_t i) {
        return (trace.smoothed[i] - trace.smoothed[valley]) /
               std::abs(trace.x[i] - trace.x[valley]);
    };
    std::size_t best = end;
    for (std::size_t i = end; i != top; i = end > top ? i - 1 : i + 1) {
        best = slope(i) < slope(best) ? i : best;
    }
    return best;
}

/// Area above the line through two points of the trace.
double area_above_line(const CorrectedTrace &trace, std::size_t first, std::size_t last) {
    const double slope =
        (trace.smoothed[last] - trace.smoothed[first]) / (trace.x[last] - trace.x[first]);
    double area = 0.0;
    for (std::size_t i = first; i < last; ++i) {
        const auto above = [&](std::size_t k) {
            return trace.recorded[k] - trace.smoothed[first] -
                   slope * (trace.x[k] - trace.x[first]);
        };
        area += 0.5 * (above(i) + above(i + 1)) * (trace.x[i + 1] - trace.x[i]);
    }
    return area;
}

bool rides(const FoundPeak &rider, const FoundPeak &parent, double valley, double ratio) {
    return parent.height >= ratio * (rider.height - valley) &&
           rider.height <= kRiderShare * parent.height;
}

void skim(const CorrectedTrace &trace, FoundPeak &rider, FoundPeak &parent) {
    const bool after = rider.apex > parent.apex;
    const std::size_t valley = point_at(trace.x, after ? rider.start : rider.end);
    const std::size_t end = point_at(trace.x, after ? rider.end : rider.start);
    const std::size_t top = point_at(trace.x, rider.apex);
    if (valley == top || end == top) {
        return;
    }
    const std::size_t touched = touching_point(trace, valley, top, end);
    const double area =
        area_above_line(trace, std::min(valley, touched), std::max(valley, touched));
    parent.area += rider.area - area;
    rider.area = area;
}

} // namespace

FoundPeaks skim_riders(FoundPeaks found, std::span<const double> x, std::span<const double> y,
                       double ratio) {
    quantities::require(ratio >= 1.0, "a ratio of heights", ratio, "a ratio of at least 1");
    const CorrectedTrace trace = corrected_trace(x, y, found);
    for (std::size_t i = 0; i + 1 < found.peaks.size(); ++i) {
        FoundPeak &first = found.peaks[i];
        FoundPeak &second = found.peaks[i + 1];
        if (!first.shares_end) {
            continue;
        }
        const double valley = trace.smoothed[point_at(x, first.end)];
        if (rides(second, first, valley, ratio)) {
            skim(trace, second, first);
        } else if (rides(first, second, valley, ratio)) {
            skim(trace, first, second);
        }
    }
    return found;
}

} // namespace cospot::signal
