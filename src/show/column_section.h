#pragma once

#include "document/document.h"
#include "show/holdings.h"

namespace cospot {

/// What a packed column is, and where bands left it.
void add_column(Document &document, const HeldColumn &held);

/// One row a band.
[[nodiscard]] DataTable column_data(const HeldColumn &held);

} // namespace cospot
