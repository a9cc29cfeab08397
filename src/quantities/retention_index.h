#pragma once

#include "quantities/ladder.h"

#include <optional>

namespace cospot::quantities {

/// Isothermal or isocratic retention index, 100 [n + (N - n) (log x - log x_n) / (log x_N - log
/// x_n)], between members of carbon numbers n < N (Kovats 1958, Helv. Chim. Acta 41, 1915; IUPAC,
/// Ettre 1993, Pure Appl. Chem. 65, 819). x: adjusted retention times (or volumes) in one unit, or
/// retention factors. Throws InputError unless 0 < x_lower < x_upper, x_lower <= x <= x_upper and
/// the carbon numbers rise: outside its two members the index is not defined.
[[nodiscard]] double kovats_index(double x, double x_lower, double x_upper, double carbon_lower,
                                  double carbon_upper);

/// Temperature-programmed (or gradient) retention index, 100 [n + (N - n) (t - t_n) / (t_N - t_n)],
/// with plain retention times in min (van den Dool and Kratz 1963, J. Chromatogr. 11, 463).
/// Errors as above; its values are not those of an isothermal run.
[[nodiscard]] double linear_index(double time_min, double time_lower_min, double time_upper_min,
                                  double carbon_lower, double carbon_upper);

/// How retention runs between two members: logarithmic for one temperature or eluent, linear for a
/// programme or gradient.
enum class IndexLaw { logarithmic, linear };

enum class LadderPosition { inside, before_first, after_last, before_hold_up };

/// A retention time on a ladder.
struct IndexedTime {
    LadderPosition position = LadderPosition::inside;
    std::optional<double> index; ///< absent outside the ladder unless extrapolated
    double index_per_min = 0.0;  ///< local slope dI/dt of the index; 0 without an index
    /// Standard uncertainty of the index, in units, for each min of standard uncertainty of the
    /// other times behind it: of both members and, with the logarithmic law, of the hold-up.
    double ladder_per_min = 0.0;
    bool extrapolated = false; ///< taken from the two outermost members
    bool in_gap = false;       ///< taken from members wider apart than the ladder's smallest step
    /// Standard uncertainty, in units, of interpolating over missing members, or of extrapolating:
    /// the term that follows in Newton's formula, from the bend of the ladder beside the place. 0
    /// elsewhere, since there the index is so defined, and for a ladder of two members.
    double interpolation_uncertainty = 0.0;
};

/// The index of a retention time in min on a ladder that `check_ladder` accepts (with or without
/// gaps). Exactly 100 n at a member. Outside the ladder there is no index, unless `extrapolate`
/// asks for one from the two outermost members, which is marked and unreliable. A time at or before
/// the hold-up time has `before_hold_up` and never an index.
/// `hold_up_min` is 0 where it is not known (linear law) or the times are adjusted already.
/// Throws InputError for a time that is not above 0, a negative hold-up time, one after the first
/// member's time (with the logarithmic law also one at it), and what `check_ladder` refuses.
[[nodiscard]] IndexedTime index_on_ladder(const Ladder &ladder, double retention_time_min,
                                          IndexLaw law, double hold_up_min, bool extrapolate);

} // namespace cospot::quantities
