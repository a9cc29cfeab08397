#include "quantities/peak_shape.h"

#include "quantities/domain.h"
#include "quantities/retention_factor.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace cospot::quantities {

namespace {

void require_peak(double retention_time_min, double width_min) {
    require(retention_time_min > 0.0, "a retention time", retention_time_min,
            "a retention time above 0 min");
    require(width_min > 0.0, "a peak width", width_min, "a peak width above 0 min");
}

void require_pair(const PeakWidth &first, const PeakWidth &second) {
    require_peak(first.retention_time_min, first.width_min);
    require_peak(second.retention_time_min, second.width_min);
    require(
        second.retention_time_min >= first.retention_time_min,
        "a retention time of the second peak", second.retention_time_min,
        fmt::format("not before the first peak at {} min", exact_text(first.retention_time_min)));
}

} // namespace

double plate_number_from_half_width(double retention_time_min, double half_width_min) {
    require_peak(retention_time_min, half_width_min);
    return 8.0 * std::numbers::ln2 * std::pow(retention_time_min / half_width_min, 2);
}

double resolution_from_base_widths(const PeakWidth &first, const PeakWidth &second) {
    require_pair(first, second);
    return 2.0 * (second.retention_time_min - first.retention_time_min) /
           (first.width_min + second.width_min);
}

double resolution_from_half_widths(const PeakWidth &first, const PeakWidth &second) {
    require_pair(first, second);
    return 1.18 * (second.retention_time_min - first.retention_time_min) /
           (first.width_min + second.width_min);
}

double resolution_from_plate_number(double k_a, double k_b, double plate_number) {
    require(plate_number > 0.0, "a plate number", plate_number, "a plate number above 0");
    const double alpha = separation_factor(k_a, k_b);
    const double k_second = std::max(k_a, k_b);
    return std::sqrt(plate_number) / 4.0 * (alpha - 1.0) / alpha * k_second / (1.0 + k_second);
}

} // namespace cospot::quantities
