#pragma once

#include "descriptors/boiling_point.h"

namespace RDKit {
class ROMol;
}

namespace cospot::descriptors {

/// 198.2 K + sum of the groups in data/joback_groups.tsv: K. G. Joback, R. C. Reid, Chem. Eng.
/// Commun. 1987, 57, 233, table III. Missing where an atom is in no group (nitrogen without
/// hydrogen in a ring, sulfoxides, phosphorus, silicon, ...).
[[nodiscard]] BoilingPoint joback_boiling_point(const RDKit::ROMol &molecule);

} // namespace cospot::descriptors
