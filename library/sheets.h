#pragma once

#include "library/changes.h"
#include "library/database.h"
#include "shared/table_header.h"

#include <string>
#include <string_view>
#include <vector>

namespace cospot::library {

/// Remembers what a sheet of the laboratory calls columns, instead of what was remembered under
/// that name before.
void keep_sheet(Database &database, const std::string &sheet,
                const std::vector<ColumnAlias> &columns, ChangeId change);

/// What was remembered under the name, the case of letters ignored; empty: nothing.
[[nodiscard]] std::vector<ColumnAlias> columns_of_sheet(Database &database,
                                                        const std::string &sheet);

/// What the library remembers of a sheet, and who told it when.
struct RememberedSheet {
    std::string name;
    std::vector<ColumnAlias> columns;
    Change change;
};

/// All sheets, in the order of their names.
[[nodiscard]] std::vector<RememberedSheet> remembered_sheets(Database &database);

/// Forgets what was remembered under the name; the change says what that was, and why it goes.
/// False where there is no such sheet.
[[nodiscard]] bool forget_sheet(Database &database, const std::string &sheet,
                                std::string_view reason);

/// The names of all sheets, in their order.
[[nodiscard]] std::vector<std::string> sheet_names(Database &database);

/// The same for a refusal: `: "class sheet", "GC"`; empty where there is none.
[[nodiscard]] std::string listed_sheet_names(Database &database);

} // namespace cospot::library
