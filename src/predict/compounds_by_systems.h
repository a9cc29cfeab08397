#pragma once

#include "document/document.h"
#include "predict/predictions.h"

#include <vector>

namespace cospot {

/// All compounds, a row each, by all systems that the library has values of, a column each: what to
/// expect, and its basis unless it was measured. Where there are more than four systems the table
/// goes on below itself. Empty for one compound or one system.
[[nodiscard]] std::vector<Table> compounds_by_systems(const Predictions &predictions);

} // namespace cospot
