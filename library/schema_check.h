#pragma once

#include "library/database.h"

#include <string>

namespace cospot::library {

/// Throws InputError unless the file has the tables, indices and triggers that this program makes
/// for its format, and no others: a trigger of somebody else could take values away while they are
/// learned, and a view could stand for a table. SQLite's own tables (sqlite_stat1) are let pass.
/// Asks nothing but the schema, so that no foreign view is run.
void check_schema(const Database &database);

/// What the check compares, one line a table, index or trigger, sorted: what it is, its name, and
/// the statement that made it without blanks and quotes. That of a library of the present format
/// stands in library/schema/complete.txt, since making one to compare with takes as long as a short
/// command.
[[nodiscard]] std::string schema_text(const Database &database);

} // namespace cospot::library
