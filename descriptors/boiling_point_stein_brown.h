#pragma once

#include "descriptors/boiling_point.h"

namespace RDKit {
class ROMol;
}

namespace cospot::descriptors {

/// The correction of Stein and Brown for the sum T (K) of 198.2 K and all groups, in K:
/// T - 94.84 + 0.5577 T - 0.0007705 T^2 up to 700 K, T + 282.7 - 0.5209 T above.
[[nodiscard]] double stein_brown_corrected(double group_sum_kelvin);

/// The corrected sum of the groups in data/stein_brown_groups.tsv: S. E. Stein, R. L. Brown, J.
/// Chem. Inf. Comput. Sci. 1994, 34, 581. Missing where an atom is in no group, and for all of
/// sulfur, phosphorus, silicon, boron, N-N and C=N, whose groups are not known here.
[[nodiscard]] BoilingPoint stein_brown_boiling_point(const RDKit::ROMol &molecule);

} // namespace cospot::descriptors
