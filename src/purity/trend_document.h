#pragma once

#include "document/document.h"
#include "purity/trend.h"

namespace cospot {

/// The declared compound and the impurities over the samples: a chart of each with its limit, and
/// their per cent in a table.
[[nodiscard]] Section trend_section(const purity::Trend &trend);

} // namespace cospot
