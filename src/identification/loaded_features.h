#pragma once

#include "evidence/library_evidence.h"
#include "library/database.h"
#include "readers/feature.h"

#include <iosfwd>
#include <optional>
#include <string>

namespace cospot {

/// Features with all that the library knows about them.
struct LoadedFeatures {
    FeatureSet set;
    LibraryEvidence evidence;
};

/// Loads the library's evidence on the features, with `extent` as `load_evidence` has it, but all
/// where candidates are added or further evidence is judged; `also` names a
/// file of structures that are candidates too, whether the library holds them or not. Traits are
/// loaded where a feature has further evidence. Throws InputError as `load_evidence` and the reader
/// of the file do.
[[nodiscard]] LoadedFeatures load_features(library::Database &database, FeatureSet set,
                                           Extent extent, const std::optional<std::string> &also,
                                           std::istream &standard_input);

/// Whether a note tells of a fault, or a system holds nothing to compare with.
[[nodiscard]] bool needs_attention(const FeatureSet &set, const LibraryEvidence &evidence);

} // namespace cospot
