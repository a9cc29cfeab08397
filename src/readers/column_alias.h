#pragma once

#include "shared/error.h"
#include "shared/table_header.h"

#include <string_view>

namespace cospot {

/// Reads what the user calls a column, "COLUMN=HEADER" such as "compound=Name". Throws InputError
/// where one of the two is missing.
[[nodiscard]] ColumnAlias parse_column_alias(std::string_view text, const Where &where);

} // namespace cospot
