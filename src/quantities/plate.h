#pragma once

#include "quantities/uncertain.h"

namespace cospot::quantities {

/// Standard uncertainty of one distance read with a ruler from the centre of a spot (common
/// practice, no source).
inline constexpr double kRulerReadingError_mm = 0.5;

/// Retardation factor R_F = distance of the spot centre / distance of the front, both from the
/// start line, in mm; 0 at the start, 1 at the front (IUPAC, Ettre 1993, Pure Appl. Chem. 65, 819).
/// Throws InputError for a front that is not above 0, a negative distance, or one beyond the front.
[[nodiscard]] double retardation_factor(double distance_mm, double front_mm);

/// As above, with the standard uncertainty `reading_error_mm` (0 or more) of each of the two
/// readings, taken as independent and propagated to first order (JCGM 100:2008, 5.1.2):
/// u(R_F) = (u / front) sqrt(1 + R_F^2).
[[nodiscard]] Uncertain retardation_factor(double distance_mm, double front_mm,
                                           double reading_error_mm);

/// R_M = log10((1 - R_F) / R_F), the planar counterpart of log k (Bate-Smith and Westall 1950;
/// IUPAC, Ettre 1993). Throws InputError unless 0 < R_F < 1: at the start and at the front R_F is
/// censored and R_M has no value.
[[nodiscard]] double r_m(double rf);

/// R_F = 1 / (1 + 10^R_M), the reverse.
[[nodiscard]] double rf_of_r_m(double r_m);

} // namespace cospot::quantities
