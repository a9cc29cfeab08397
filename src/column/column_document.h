#pragma once

#include "column/column_result.h"
#include "document/document.h"

namespace cospot {

/// The plan: which fractions to collect, the rack of tubes, then what it rests on.
[[nodiscard]] Document column_document(const ColumnResult &result);

} // namespace cospot
