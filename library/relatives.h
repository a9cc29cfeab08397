#pragma once

#include "library/compounds.h"
#include "library/database.h"

#include <vector>

namespace cospot::library {

/// Other compounds of the library that share the skeleton (stereoisomers, open stereo), the parent
/// (salt and free form) or the tautomer hash of this one, which need not be stored itself.
[[nodiscard]] std::vector<Compound> find_relatives(Database &database, const Compound &compound);

} // namespace cospot::library
