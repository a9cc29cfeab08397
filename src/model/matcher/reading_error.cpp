#include "model/matcher/reading_error.h"

#include "shared/student_t.h"

#include <cmath>
#include <numbers>

namespace cospot::matcher {

ReadSpread as_read(double scale, double freedom, double error) {
    if (error <= 0.0) {
        return {scale, freedom};
    }
    const double both = std::hypot(scale, error);
    const double share = (error / both) * (error / both);
    return {both, 1.0 / (share / kReadingFreedom + (1.0 - share) / freedom)};
}

double error_of(Quantity quantity, double value, double uncertainty) {
    return uncertainty > 0.0 ? uncertainty * scale_slope(quantity, value) : 0.0;
}

double density_of_misreading(double distance, double error) {
    return error > 0.0 ? std::exp(log_student_t(distance / error, kReadingFreedom)) / error : 0.0;
}

double misreads_by_less(double distance, double error) {
    if (error <= 0.0) {
        return distance >= 0.0 ? 1.0 : 0.0;
    }
    return student_t_below(distance / error, kReadingFreedom);
}

double place_of(Censoring end) {
    return end == Censoring::at_start ? 0.0 : std::numbers::pi / 2;
}

double edge_of(Censoring end) {
    return to_model_scale(Quantity::Rf,
                          end == Censoring::at_start ? kCensoredMargin : 1.0 - kCensoredMargin);
}

double read_at(Censoring end, double place, double error) {
    const double distance = edge_of(end) - place;
    return misreads_by_less(end == Censoring::at_start ? distance : -distance, error);
}

} // namespace cospot::matcher
