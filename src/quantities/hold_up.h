#pragma once

#include "quantities/ladder.h"

#include <vector>

namespace cospot::quantities {

// Both functions rest on log(t_R - t_M) being linear in carbon number. That holds for one
// temperature (or one eluent) and over a limited range of carbon numbers only; the first members
// of a series usually depart from it. A measured hold-up time (methane or air in gas
// chromatography, an unretained mark in liquid chromatography) is better where there is one.

/// Hold-up time in min from the retention times in min of three homologues equally spaced in carbon
/// number, t_M = (t1 t3 - t2^2) / (t1 + t3 - 2 t2) (Peterson and Hirsch 1959, J. Lipid Res. 1,
/// 132). Throws InputError unless 0 < t1 < t2 < t3 and, because the spacing is then not that of an
/// isothermal or isocratic run, where the formula has no answer from 0 to below t1 (as for equally
/// spaced times).
[[nodiscard]] double hold_up_from_three_homologues(double t1_min, double t2_min, double t3_min);

/// Hold-up time in min from three or more homologues of any carbon numbers: the t_M for which the
/// least-squares line of log(t_R - t_M) against carbon number leaves the smallest share of the
/// variance (the idea of guardino1976, from memory; the share makes trial values comparable). Three
/// equally spaced members take the closed form. Points in ascending order as `check_ladder` wants
/// them. Throws InputError for fewer than three members, what `check_ladder` refuses, and where no
/// t_M from 0 to below the first time fits best.
[[nodiscard]] double hold_up_from_homologues(const std::vector<LadderPoint> &points);

} // namespace cospot::quantities
