#pragma once

#include "document/document.h"
#include "pool/pool_result.h"

#include <vector>

namespace cospot {

/// The run of the column from left to right, as many pictures as it takes, and lines for a terminal
/// with the first; marks have the numbers of fractions as keys.
[[nodiscard]] std::vector<Figure> pool_figures(const PoolResult &result);

} // namespace cospot
