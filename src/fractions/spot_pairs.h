#pragma once

#include <cstddef>
#include <utility>
#include <vector>

namespace cospot::fractions {

/// How far the R_F of one component may differ between two lanes, unless the user says otherwise:
/// three standard uncertainties of the difference between two readings at R_F 0.5, where each
/// distance is read with the standard uncertainty `reading_error_mm` from a plate with its front at
/// `front_mm`. Throws InputError unless the front is above 0 and the error 0 or more.
[[nodiscard]] double default_tolerance(double front_mm, double reading_error_mm);

/// Which values of one lane belong to which of another: pairs of positions in `a` and `b`, both in
/// falling order. Pairs keep the order of spots and lie no more than `tolerance` apart; of all such
/// pairings it is the one of least cost, found exactly, where a pair costs its squared distance in
/// units of the tolerance, and a value without partner one half (a lone pair at the tolerance costs
/// as much as none).
[[nodiscard]] std::vector<std::pair<std::size_t, std::size_t>>
pair_spots(const std::vector<double> &a, const std::vector<double> &b, double tolerance);

} // namespace cospot::fractions
