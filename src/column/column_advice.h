#pragma once

#include "column/column_result.h"
#include "document/document.h"

namespace cospot {

/// The column that the published table has for the load, beside what the plan was made with, and
/// the eluent to have ready.
[[nodiscard]] Section column_section(const ColumnResult &result);

/// What should become of the eluent, with what the library expects in other mixtures.
[[nodiscard]] Section eluent_section(const ColumnResult &result);

} // namespace cospot
