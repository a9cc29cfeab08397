#pragma once

#include "evidence/library_evidence.h"
#include "library/database.h"

#include <string>
#include <vector>

namespace cospot {

/// Systems of the library that may tell what a compound shows on the observed ones: of the same
/// technique with values of the same quantity (for retention indices on the same scale), and not
/// observed themselves. Whether they do tell is found from the values. The larger ones first;
/// empty where the library is too large to compare all values while the user waits.
[[nodiscard]] std::vector<ModelledSystem>
related_systems(library::Database &database, const std::vector<ModelledSystem> &observed);

/// Adds what the systems tell about compounds that were not measured on an observed system, as
/// candidates with the basis `transferred`, and how readings on several systems go together.
/// `related` are the models of `related_systems`, in their order. Returns a line for each system
/// that others tell about.
[[nodiscard]] std::vector<std::string>
transfer_between_systems(LibraryEvidence &evidence, const std::vector<ModelledSystem> &related,
                         const std::vector<matcher::SystemModel> &related_models);

} // namespace cospot
