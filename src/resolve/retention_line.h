#pragma once

#include "model/prediction/calibration.h"
#include "quantities/linear_solvent_strength.h"
#include "readers/measured_compound.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace cospot::resolve {

/// The straight line through a compound's log10 k over the fraction.
struct RetentionLine {
    quantities::SolventStrengthLaw law;
    double low = 0.0; ///< lowest and highest measured fraction
    double high = 0.0;
    std::size_t readings = 0;
    std::size_t fractions = 0;          ///< that differ
    double mean_fraction = 0.0;         ///< of the readings
    double fraction_squares = 0.0;      ///< sum of squared distances of the fractions from it
    double residual_squares = 0.0;      ///< sum of squared residuals, log10 k; 0 for two readings
    std::optional<double> worst_factor; ///< k read over k of the line, where farthest from 1
    bool is_bent = false;               ///< see `fit_line`

    [[nodiscard]] std::size_t freedom() const { return readings - 2; }
};

/// Least squares of log10 k; exact through two readings. `is_bent` where a parabola through three
/// or more fractions strays from its chord over the measured range by more than 0.05 (12 % of k),
/// and, with more readings than three, by more than twice its standard error; both limits are our
/// own choice. Throws InputError for fractions less than `kLeastSpan` apart.
[[nodiscard]] RetentionLine fit_line(const std::vector<RetentionPoint> &points);

/// How far readings scatter around their lines.
struct Scatter {
    double deviation = 0.0; ///< standard deviation, log10 k
    double freedom = 0.0;   ///< degrees of freedom behind it
};

/// One scatter for all compounds, from the residuals of those with more than two readings (one
/// column, one method: a line through three points says little about itself). Nothing where each
/// has but two.
[[nodiscard]] std::optional<Scatter> pooled_scatter(const std::vector<RetentionLine> &lines);

/// A new reading of log10 k at a fraction: the line with the spread of a least-squares forecast.
[[nodiscard]] prediction::Prediction forecast(const RetentionLine &line, const Scatter &scatter,
                                              double fraction);

/// Where nine of ten new readings of k at a fraction lie.
struct KInterval {
    double low = 0.0;
    double high = 0.0;
};
[[nodiscard]] KInterval k_interval(const RetentionLine &line, const Scatter &scatter,
                                   double fraction);

} // namespace cospot::resolve
