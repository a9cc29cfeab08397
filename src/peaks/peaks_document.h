#pragma once

#include "document/document.h"
#include "integration/integration.h"

namespace cospot {

/// The trace with its peaks, what was measured of each, the settings, and how the file's own table
/// of peaks compares.
[[nodiscard]] Document peaks_document(const Integration &integration,
                                      const IntegrationSettings &settings);

} // namespace cospot
