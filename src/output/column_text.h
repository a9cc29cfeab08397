#pragma once

#include "document/style.h"
#include "output/column_result.h"

#include <string>

namespace cospot {

/// The plan for reading, at most 80 columns wide: compounds with volumes and fractions, where they
/// leave, the column, the eluent, warnings, and what all of it rests on.
[[nodiscard]] std::string column_text(const ColumnResult &result, const Style &style);

} // namespace cospot
