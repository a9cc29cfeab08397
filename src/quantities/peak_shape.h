#pragma once

namespace cospot::quantities {

/// Plate number N = 8 ln 2 (t_R / w_h)^2 from the width at half height of a Gaussian peak (IUPAC,
/// Ettre 1993, Pure Appl. Chem. 65, 819). Time and width in one unit. 8 ln 2 = 5.545;
/// pharmacopoeias print 5.54, which gives a result lower by 0.1 %. Throws InputError unless both
/// are above 0.
[[nodiscard]] double plate_number_from_half_width(double retention_time_min, double half_width_min);

/// One peak as it takes part in a resolution; `width_min` is at the base or at half height.
struct PeakWidth {
    double retention_time_min = 0.0;
    double width_min = 0.0;
};

/// Resolution R_s = 2 (t_2 - t_1) / (w_b1 + w_b2) of two peaks with widths at the base (IUPAC,
/// Ettre 1993). Throws InputError for widths that are not above 0 or a second peak before the
/// first.
[[nodiscard]] double resolution_from_base_widths(const PeakWidth &first, const PeakWidth &second);

/// Resolution R_s = 1.18 (t_2 - t_1) / (w_h1 + w_h2) with widths at half height (Ph. Eur. 2.2.46,
/// USP <621>; 1.18 is sqrt(2 ln 2) = 1.1774 as rounded there). Errors as above.
[[nodiscard]] double resolution_from_half_widths(const PeakWidth &first, const PeakWidth &second);

/// Resolution of two neighbours from their retention factors, R_s = sqrt(N)/4 (alpha - 1)/alpha
/// k_2/(1 + k_2), k_2 the larger and alpha = k_2/k_1: purnell1960, from memory. It takes both peaks
/// to be as wide as the second. Throws InputError unless all are above 0.
[[nodiscard]] double resolution_from_plate_number(double k_a, double k_b, double plate_number);

} // namespace cospot::quantities
