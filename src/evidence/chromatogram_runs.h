#pragma once

#include "evidence/input_features.h"
#include "library/database.h"
#include "library/systems.h"
#include "quantities/ladder.h"
#include "readers/chromatogram_table.h"
#include "readers/feature.h"

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// A chromatogram with the quantities read from it, one feature a peak.
struct ChromatogramRun {
    std::vector<Peak> peaks;
    FeatureSet set; ///< a feature for each of `peaks`
    std::optional<quantities::Ladder> ladder;
};

/// Reads the chromatograms of a file, and their ladder where the settings name one.
[[nodiscard]] std::vector<ChromatogramRun>
read_chromatogram_runs(library::Database &database, std::istream &in, const std::string &file,
                       const InputSettings &settings, std::istream &standard_input);

/// Throws InputError, with what the user must add, where the peaks of a chromatogram could not be
/// compared with what the library holds on the system.
void check_comparable(library::Database &database, const library::System &system,
                      const InputSettings &settings);

} // namespace cospot
