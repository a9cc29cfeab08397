#pragma once

#include "document/json.h"
#include "integration/integration.h"

#include <vector>

namespace cospot {

/// One object a peak, and one on the trace and the settings. Times in min, areas in signal times s.
[[nodiscard]] std::vector<Json> peaks_json(const Integration &integration,
                                           const IntegrationSettings &settings);

} // namespace cospot
