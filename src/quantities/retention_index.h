#pragma once

#include "quantities/ladder.h"

#include <optional>

namespace cospot::quantities {

/// How retention runs between two members of carbon numbers n < N; values of the two laws differ
/// but at the members, so one is never taken for the other.
/// - logarithmic, for one temperature or eluent: 100 [n + (N - n) (log x - log x_n) / (log x_N -
///   log x_n)] with adjusted times x (Kovats 1958, Helv. Chim. Acta 41, 1915; IUPAC, Ettre 1993,
///   Pure Appl. Chem. 65, 819);
/// - linear, for a programme or gradient: 100 [n + (N - n) (t - t_n) / (t_N - t_n)] with plain
///   times t (van den Dool and Kratz 1963, J. Chromatogr. 11, 463).
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
