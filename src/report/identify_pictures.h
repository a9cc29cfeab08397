#pragma once

#include "document/json.h"

#include <string>

namespace cospot {

/// The plate or the chromatograms that the results of `identify` were read from, as HTML; empty
/// for a long table. Keys of the marks are the positions of the results, from 1. `heading_level` is
/// 2 for <h2>.
[[nodiscard]] std::string identify_pictures(const Json &results, int heading_level = 2);

} // namespace cospot
