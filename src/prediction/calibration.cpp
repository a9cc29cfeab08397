#include "prediction/calibration.h"

#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace cospot::prediction {

namespace {

/// Degrees of freedom to choose from; the largest is as good as normal.
constexpr std::array<double, 6> kFreedoms = {2.0, 3.0, 4.0, 6.0, 10.0, 50.0};

double student_t_quantile(double freedom, double probability) {
    return boost::math::quantile(boost::math::students_t(freedom), probability);
}

/// The two-sided quantile: |t| stays below it with this probability.
double absolute_quantile(double freedom, double probability) {
    return student_t_quantile(freedom, 0.5 + 0.5 * probability);
}

double absolute_residual_at(std::vector<double> residuals, double share) {
    for (double &residual : residuals) {
        residual = std::abs(residual);
    }
    std::sort(residuals.begin(), residuals.end());
    const double rank = std::ceil(share * (static_cast<double>(residuals.size()) + 1.0));
    const auto position = std::min(static_cast<std::size_t>(rank), residuals.size());
    return residuals[std::max<std::size_t>(position, 1) - 1];
}

} // namespace

double Prediction::half_width() const {
    return scale * absolute_quantile(freedom, kIntervalCoverage);
}

double interval_quantile(std::vector<double> residuals) {
    return absolute_residual_at(std::move(residuals), kIntervalCoverage);
}

Calibration calibrate(const std::vector<double> &residuals) {
    Calibration best;
    if (residuals.empty()) {
        return best;
    }
    const double wide = interval_quantile(residuals);
    const double middle = absolute_residual_at(residuals, 0.5);
    const double ratio = middle > 0.0 ? wide / middle : absolute_quantile(kFreedoms.front(), 0.9);
    double smallest_misfit = std::numeric_limits<double>::infinity();
    for (const double freedom : kFreedoms) {
        const double expected =
            absolute_quantile(freedom, kIntervalCoverage) / absolute_quantile(freedom, 0.5);
        const double misfit = std::abs(std::log(expected / ratio));
        if (misfit < smallest_misfit) {
            smallest_misfit = misfit;
            best.freedom = freedom;
        }
    }
    best.factor = wide / absolute_quantile(best.freedom, kIntervalCoverage);
    return best;
}

} // namespace cospot::prediction
