#include "shared/student_t.h"

#include <boost/math/distributions/students_t.hpp>
#include <boost/math/special_functions/gamma.hpp>

#include <cmath>
#include <numbers>

namespace cospot {

double student_t_constant(double freedom, double dimensions) {
    return boost::math::lgamma((freedom + dimensions) / 2) - boost::math::lgamma(freedom / 2) -
           0.5 * dimensions * std::log(freedom * std::numbers::pi);
}

double log_student_t(double z, double freedom) {
    return student_t_constant(freedom) - (freedom + 1) / 2 * std::log1p(z * z / freedom);
}

double student_t_below(double z, double freedom) {
    return boost::math::cdf(boost::math::students_t(freedom), z);
}

double student_t_quantile(double freedom, double probability) {
    return boost::math::quantile(boost::math::students_t(freedom), probability);
}

double student_t_reach(double freedom, double probability) {
    return student_t_quantile(freedom, 0.5 + 0.5 * probability);
}

} // namespace cospot
