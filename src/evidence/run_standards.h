#pragma once

#include "evidence/library_evidence.h"
#include "library/database.h"
#include "readers/feature.h"

#include <vector>

namespace cospot {

/// Makes the standards of a plate or run known to the evidence, each with its compound: that of the
/// library where its name is held, else a compound of its own. A standard on a system that no
/// feature was observed on, or of a retired compound, is left out with a note.
void add_standards(LibraryEvidence &evidence, library::Database &database,
                   const std::vector<RunStandard> &standards, std::vector<std::string> &notes);

/// Makes the co-spots of a plate known to the evidence, as `add_standards` does its standards.
void add_cospots(LibraryEvidence &evidence, library::Database &database,
                 const std::vector<CoSpot> &cospots);

} // namespace cospot
