#pragma once

#include "evidence/further_evidence.h"
#include "evidence/library_evidence.h"
#include "library/compounds.h"
#include "library/database.h"
#include "library/descriptions.h"

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace cospot {

/// The functional groups of a compound in the terms of src/quantities/data/stains.tsv.
[[nodiscard]] std::set<std::string> reacting_groups(const library::Description &description);

/// Empty traits for a compound that the library does not hold. A salt or solvate has no mass and no
/// formula here: another technique mostly sees only one of its parts.
[[nodiscard]] CompoundTraits traits_of(library::Database &database,
                                       const std::optional<library::Compound> &compound);

/// What the library says of each compound index of the evidence.
[[nodiscard]] std::vector<CompoundTraits> load_traits(library::Database &database,
                                                      const LibraryEvidence &evidence);

} // namespace cospot
