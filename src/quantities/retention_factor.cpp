#include "quantities/retention_factor.h"

#include "quantities/domain.h"

#include <algorithm>
#include <cmath>

namespace cospot::quantities {

double adjusted_retention_time(double retention_time_min, double hold_up_min) {
    require(hold_up_min >= 0.0, "a hold-up time", hold_up_min, "a hold-up time of 0 min or more");
    require(retention_time_min >= hold_up_min, "a retention time", retention_time_min,
            fmt::format("at least the hold-up time of {} min", exact_text(hold_up_min)));
    return retention_time_min - hold_up_min;
}

double retention_factor(double retention_time_min, double hold_up_min) {
    require(hold_up_min > 0.0, "a hold-up time", hold_up_min, "a hold-up time above 0 min");
    return adjusted_retention_time(retention_time_min, hold_up_min) / hold_up_min;
}

double separation_factor(double k_a, double k_b) {
    require(k_a > 0.0, "a retention factor", k_a, "a retention factor above 0");
    require(k_b > 0.0, "a retention factor", k_b, "a retention factor above 0");
    return std::max(k_a, k_b) / std::min(k_a, k_b);
}

double relative_retention(double retention_time_min, double reference_time_min,
                          double hold_up_min) {
    const double adjusted = adjusted_retention_time(retention_time_min, hold_up_min);
    const double reference = adjusted_retention_time(reference_time_min, hold_up_min);
    require(reference > 0.0, "a reference time", reference_time_min,
            "a reference that is retained (later than the hold-up time)");
    return adjusted / reference;
}

Uncertain relative_retention(double retention_time_min, double reference_time_min,
                             double hold_up_min, double time_error_min) {
    const double r = relative_retention(retention_time_min, reference_time_min, hold_up_min);
    return {r, time_error_min / (reference_time_min - hold_up_min) * std::hypot(1.0, r, 1.0 - r)};
}

Uncertain unadjusted_relative_retention(double retention_time_min, double reference_time_min,
                                        double time_error_min) {
    require(retention_time_min > 0.0, "a retention time", retention_time_min,
            "a retention time above 0 min");
    require(reference_time_min > 0.0, "a reference time", reference_time_min,
            "a reference time above 0 min");
    const double ratio = retention_time_min / reference_time_min;
    return {ratio, time_error_min / reference_time_min * std::hypot(1.0, ratio)};
}

} // namespace cospot::quantities
