#pragma once

#include <vector>

namespace cospot::prediction {

/// The share of new values that an interval is to hold.
inline constexpr double kIntervalCoverage = 0.9;

/// An expected value and its spread: a Student t on the scale of the values that were learned from.
struct Prediction {
    double location = 0.0;
    double scale = 0.0;
    double freedom = 0.0; ///< degrees of freedom

    /// Half the width of the interval that holds `kIntervalCoverage` of new values.
    [[nodiscard]] double half_width() const;
};

/// Turns a model's own standard deviation into a spread that has proved right on compounds that
/// were left out.
struct Calibration {
    double factor = 1.0; ///< from the model's standard deviation to the scale of a Student t
    double freedom = 5.0;

    [[nodiscard]] Prediction spread(double location, double deviation) const {
        return {location, factor * deviation, freedom};
    }
};

/// From residuals of left-out values, each divided by the model's standard deviation: the 90 %
/// interval is as wide as the residuals ask for (the conformal quantile: vovk2005, from memory),
/// and the degrees of freedom follow the ratio of that quantile to the median. Without residuals:
/// the default.
[[nodiscard]] Calibration calibrate(const std::vector<double> &residuals);

/// The absolute residual that the share `kIntervalCoverage` does not exceed, counted over n + 1.
[[nodiscard]] double interval_quantile(std::vector<double> residuals);

} // namespace cospot::prediction
