#pragma once

namespace cospot::quantities {

/// Column volumes CV (hold-up volumes of the column) after which a compound leaves in isocratic
/// work, 1 / R_F: as R_F = 1 / (1 + k) where plate and column hold it alike (IUPAC, Ettre 1993,
/// Pure Appl. Chem. 65, 819), this is 1 + k. Throws InputError unless 0 < R_F < 1: at the start and
/// at the front R_F is censored and there is no column volume.
[[nodiscard]] double column_volumes(double rf);

/// The packed bed of a column.
struct ColumnBed {
    double diameter_mm = 0.0; ///< inner
    double height_mm = 0.0;
};

/// Volume of the bed in mL. Throws InputError unless diameter and height are above 0.
[[nodiscard]] double bed_volume_ml(const ColumnBed &bed);

/// Bulk density of dry chromatographic silica (common practice, no source).
inline constexpr double kSilicaDensity_g_per_ml = 0.5;
/// Share of a silica bed that the mobile phase fills, between and within the grains (common
/// practice, no source).
inline constexpr double kMobilePhaseShare = 0.8;

/// Dry silica in the bed, g, by the density above. Errors as `bed_volume_ml`.
[[nodiscard]] double silica_mass_g(const ColumnBed &bed);

/// Hold-up volume of a bed of so much dry silica, mL, with the two values above. Throws InputError
/// unless the mass is above 0.
[[nodiscard]] double hold_up_of_silica_ml(double silica_g);

/// A Gaussian band as it leaves a column.
struct ElutedBand {
    double volume_ml = 0.0; ///< of its maximum
    double sigma_ml = 0.0;  ///< standard deviation
};

/// The band of a compound that leaves after `column_volumes` (above 0) of `hold_up_ml` (above 0) on
/// a column of `plate_number` (above 0) plates, loaded in `load_ml` (0 or more): maximum at CV V_M
/// + V_load / 2, variance V^2 / N (IUPAC, Ettre 1993: N = (V / sigma)^2, V = CV V_M) + V_load^2 /
/// 12 (a rectangular plug: sternberg1966, from memory). Throws InputError for values out of these
/// ranges.
[[nodiscard]] ElutedBand eluted_band(double column_volumes, double hold_up_ml, double plate_number,
                                     double load_ml);

/// Variance, mL2, that a load adds to a band which leaves `held_ml` (0 or more) behind the hold-up
/// volume, where the load is `share` (0 to 1) of what the bed takes at most: 6/16 held^2 share, as
/// the base width 4 sigma of a band on a Langmuir isotherm grows by W_th^2 = 6 t_0^2 k^2 w_x/w_s
/// (snyder1987, from memory). Throws InputError for values out of these ranges.
[[nodiscard]] double overload_variance(double held_ml, double share);

/// Resolution R_s = 2 (V_2 - V_1) / (w_b1 + w_b2) with base widths w_b = 4 sigma (IUPAC, Ettre
/// 1993), whichever band is first. Throws InputError for a sigma that is not above 0.
[[nodiscard]] double resolution(const ElutedBand &a, const ElutedBand &b);

} // namespace cospot::quantities
