#include "quantities/plate.h"

#include "quantities/domain.h"

#include <cmath>

namespace cospot::quantities {

double retardation_factor(double distance_mm, double front_mm) {
    require(front_mm > 0.0, "a front distance", front_mm, "a front distance above 0 mm");
    require(distance_mm >= 0.0, "a spot distance", distance_mm, "a spot distance of 0 mm or more");
    require(distance_mm <= front_mm, "a spot distance", distance_mm,
            fmt::format("at most the front distance of {} mm", exact_text(front_mm)));
    return distance_mm / front_mm;
}

Uncertain retardation_factor(double distance_mm, double front_mm, double reading_error_mm) {
    require(reading_error_mm >= 0.0, "a reading error", reading_error_mm,
            "a reading error of 0 mm or more");
    const double rf = retardation_factor(distance_mm, front_mm);
    return {rf, reading_error_mm / front_mm * std::sqrt(1.0 + rf * rf)};
}

double r_m(double rf) {
    require(rf > 0.0 && rf < 1.0, "an R_F", rf, "an R_F between 0 and 1, both excluded");
    return std::log10((1.0 - rf) / rf);
}

double rf_of_r_m(double r_m) {
    return 1.0 / (1.0 + std::pow(10.0, r_m));
}

} // namespace cospot::quantities
