#include "model/prediction/calibration.h"

#include "shared/student_t.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace cospot::prediction {

namespace {

/// Degrees of freedom to choose from; the largest is as good as normal.
constexpr std::array<double, 6> kFreedoms = {2.0, 3.0, 4.0, 6.0, 10.0, 50.0};

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
    return scale * student_t_reach(freedom, kIntervalCoverage);
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
    const double ratio = middle > 0.0 ? wide / middle : student_t_reach(kFreedoms.front(), 0.9);
    double smallest_misfit = std::numeric_limits<double>::infinity();
    for (const double freedom : kFreedoms) {
        const double expected =
            student_t_reach(freedom, kIntervalCoverage) / student_t_reach(freedom, 0.5);
        const double misfit = std::abs(std::log(expected / ratio));
        if (misfit < smallest_misfit) {
            smallest_misfit = misfit;
            best.freedom = freedom;
        }
    }
    best.factor = wide / student_t_reach(best.freedom, kIntervalCoverage);
    return best;
}

} // namespace cospot::prediction
