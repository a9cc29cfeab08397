#pragma once

#include "document/document.h"
#include "document/json.h"
#include "integration/integration.h"

#include <string>
#include <vector>

namespace cospot {

/// The trace with its peaks, what was measured of each, the settings, and how the file's own table
/// of peaks compares.
[[nodiscard]] Document peaks_document(const Integration &integration,
                                      const IntegrationSettings &settings);

/// One object a peak, and one on the trace and the settings.
[[nodiscard]] std::vector<Json> peaks_json(const Integration &integration,
                                           const IntegrationSettings &settings);

/// A peak of the file's own table beside the found one that is nearest to it.
struct ComparedPeak {
    const StoredPeak *stored = nullptr;
    const signal::FoundPeak *found = nullptr; ///< none lies within its borders
};

[[nodiscard]] std::vector<ComparedPeak> compared_with_stored(const Integration &integration);

} // namespace cospot
