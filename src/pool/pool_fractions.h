#pragma once

#include "document/document.h"
#include "pool/pool_result.h"

namespace cospot {

/// Every fraction that was looked at, a row each, for a page.
[[nodiscard]] Table fractions_table(const PoolResult &result);

/// The same for a spreadsheet.
[[nodiscard]] DataTable fractions_data(const PoolResult &result);

} // namespace cospot
