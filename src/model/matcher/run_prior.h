#pragma once

#include "model/matcher/run_shift.h"
#include "model/matcher/system_model.h"
#include "shared/quantity.h"

namespace cospot::matcher {

/// The scale on which a run lies against the library along a straight line: R_M for R_F, else the
/// model scale (log10 k, index units, min). `scaled` is on the model scale.
[[nodiscard]] double to_line_scale(Quantity quantity, double scaled);
[[nodiscard]] double from_line_scale(Quantity quantity, double on_line);

/// The derivative of the model scale by the scale of the line.
[[nodiscard]] double model_per_line(Quantity quantity, double on_line);

/// What is believed of a run before its features are seen. On the scale of the line
/// z(run) = z(library) + offset + slope (z(library) - centre). The run is as the library's are
/// (normal distributions), or something befell it (Student t with 4 degrees of freedom, wide). The
/// figures and their reasons stand in MODEL.md beside this file, section 2.
struct RunPrior {
    double accident = 0.1; ///< probability
    double usual_offset = 0.0;
    double usual_slope = 0.0;
    /// By what share of itself a time has drifted since the library's values: where a run has one
    /// reading. Several tell themselves whether it is moved.
    double drift = 0.0;
    double accident_offset = 0.0;
    double accident_slope = 0.0;
    double centre = 0.0;
};

/// No run is looked for farther away, in scales of the accident.
inline constexpr double kFarthestAccident = 4.0;

/// What lies so many standard deviations from a component of a mixture does not count.
inline constexpr double kReachOfShift = 3.0;

[[nodiscard]] RunPrior run_prior(const SystemModel &system);

/// What that says of the shift at the place of a value (in the unit of the quantity).
[[nodiscard]] ShiftMixture prior_shifts(const RunPrior &prior, const SystemModel &system,
                                        double value);

/// How far candidates may lie from a value since its run may be shifted, on the model scale:
/// whatever mixture will be found for it.
[[nodiscard]] double farthest_shift(const RunPrior &prior, Quantity quantity, double value);

/// Probability below x of a Student t with 4 degrees of freedom (closed form, by integration).
[[nodiscard]] double accident_below(double x);

} // namespace cospot::matcher
