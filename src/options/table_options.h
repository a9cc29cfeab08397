#pragma once

#include "options/options.h"
#include "shared/table.h"

#include <vector>

namespace cospot {

/// Adds --map; every command that reads tables has it.
void add_map_option(CommandOptions &options);

/// Adds --partial, of commands that judge several lanes, runs or samples of a file.
void add_partial_option(CommandOptions &options);

/// What the user calls columns. Throws InputError for what is no COLUMN=HEADER, and for a column
/// that is given twice.
[[nodiscard]] std::vector<ColumnAlias> aliases_of(const CommandOptions &options);

} // namespace cospot
