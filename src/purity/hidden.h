#pragma once

#include "library/database.h"
#include "library/systems.h"
#include "purity/detectors.h"
#include "purity/identities.h"
#include "purity/judged_sample.h"

#include <span>
#include <string>
#include <vector>

namespace cospot::purity {

/// Compounds of the library that would sit under the feature: their expected values lie within two
/// spreads of every observation. The closest first, as "NAME (basis)"; the compound `except` is
/// left out.
[[nodiscard]] std::vector<std::string> compounds_at(const Feature &feature,
                                                    const std::string &except,
                                                    const LibraryEvidence &evidence,
                                                    library::Database &database);

/// How the sample was seen.
struct Detection {
    Technique technique = Technique::tlc;
    const Detector *detector = nullptr; ///< null: not said
};

/// Compounds that the technique or detector can hardly show, with the reason: see `Detector`; in
/// gas chromatography salts, and what is estimated to boil above 450 degrees C (common practice, no
/// source).
[[nodiscard]] std::vector<std::string> hardly_seen(const Declaration &declaration,
                                                   const Detection &detection,
                                                   library::Database &database);

} // namespace cospot::purity
