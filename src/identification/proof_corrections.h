#pragma once

#include "evidence/library_evidence.h"
#include "identification/identification.h"
#include "library/database.h"
#include "readers/feature.h"

#include <string>
#include <vector>

namespace cospot {

/// Sets the corrections that the newest proofs of the library taught, for each technique that the
/// features were seen by, with a note for each that says so or that none is needed; or with one
/// that nobody proved the library yet, or that it was too small for that.
void apply_proofs(IdentificationOptions &how, const std::vector<Feature> &features,
                  const LibraryEvidence &evidence, library::Database &database,
                  std::vector<std::string> &notes);

} // namespace cospot
