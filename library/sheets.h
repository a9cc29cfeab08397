#pragma once

#include "library/database.h"
#include "library/ids.h"
#include "shared/table_header.h"

#include <string>
#include <vector>

namespace cospot::library {

/// Remembers what a sheet of the laboratory calls columns, instead of what was remembered under
/// that name before.
void keep_sheet(Database &database, const std::string &sheet,
                const std::vector<ColumnAlias> &columns, ChangeId change);

/// What was remembered under the name, the case of letters ignored; empty: nothing.
[[nodiscard]] std::vector<ColumnAlias> columns_of_sheet(Database &database,
                                                        const std::string &sheet);

/// The names of all sheets, in their order.
[[nodiscard]] std::vector<std::string> sheet_names(Database &database);

} // namespace cospot::library
