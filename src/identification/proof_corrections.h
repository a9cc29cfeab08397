#pragma once

#include "evidence/feature.h"
#include "evidence/library_evidence.h"
#include "identification/identification.h"
#include "library/database.h"

#include <string>
#include <vector>

namespace cospot {

/// Sets the corrections that proofs of the library taught, of the technique that was observed (the
/// first where there are several), each with a note that says so; or with one that nobody proved
/// the library yet.
void apply_proofs(IdentificationOptions &how, const std::vector<Feature> &features,
                  const LibraryEvidence &evidence, library::Database &database,
                  std::vector<std::string> &notes);

} // namespace cospot
