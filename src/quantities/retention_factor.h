#pragma once

#include "quantities/uncertain.h"

namespace cospot::quantities {

/// Adjusted retention time t'_R = t_R - t_M, min (IUPAC, Ettre 1993, Pure Appl. Chem. 65, 819).
/// Throws InputError for a negative hold-up time or a retention time below it.
[[nodiscard]] double adjusted_retention_time(double retention_time_min, double hold_up_min);

/// Retention factor k = (t_R - t_M) / t_M, no unit (IUPAC, Ettre 1993).
/// Throws InputError for a hold-up time that is not above 0 or a retention time below it.
[[nodiscard]] double retention_factor(double retention_time_min, double hold_up_min);

/// Separation factor alpha, the larger of two retention factors over the smaller; at least 1
/// (IUPAC, Ettre 1993). Throws InputError unless both are above 0.
[[nodiscard]] double separation_factor(double k_a, double k_b);

/// Relative retention r = t'_R / t'_R(reference), from adjusted times in min (IUPAC, Ettre 1993;
/// Ph. Eur. 2.2.46). Throws InputError for a retention time below the hold-up time, a negative
/// hold-up time, or a reference that is not retained.
[[nodiscard]] double relative_retention(double retention_time_min, double reference_time_min,
                                        double hold_up_min);

/// As above, with the standard uncertainty `time_error_min` of each of the three times, taken as
/// independent and propagated to first order (JCGM 100:2008, 5.1.2):
/// u(r) = u / t'_R(reference) sqrt(1 + r^2 + (1 - r)^2).
[[nodiscard]] Uncertain relative_retention(double retention_time_min, double reference_time_min,
                                           double hold_up_min, double time_error_min);

/// Unadjusted relative retention r_G = t_R / t_R(reference) (IUPAC, Ettre 1993; Ph. Eur. 2.2.46),
/// which depends on the instrument's hold-up time, with the standard uncertainty of both times:
/// u(r_G) = u / t_R(reference) sqrt(1 + r_G^2). Throws InputError unless both times are above 0.
[[nodiscard]] Uncertain unadjusted_relative_retention(double retention_time_min,
                                                      double reference_time_min,
                                                      double time_error_min);

} // namespace cospot::quantities
