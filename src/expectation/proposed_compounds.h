#pragma once

#include "evidence/library_evidence.h"
#include "expectation/expected_retention.h"
#include "library/database.h"

#include <string>
#include <vector>

namespace cospot {

/// Adds compounds that the user suspects to the candidates of every observed system on which they
/// were not measured, with what is expected of them there (transferred or predicted). Loads RDKit.
/// Returns notes on those of which nothing can be expected.
[[nodiscard]] std::vector<std::string> propose_compounds(LibraryEvidence &evidence,
                                                         library::Database &database,
                                                         const std::vector<AskedCompound> &asked);

} // namespace cospot
