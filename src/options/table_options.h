#pragma once

#include "options/command.h"
#include "options/options.h"
#include "shared/table.h"

#include <vector>

namespace cospot {

/// Adds --map and --as; every command that reads tables has them.
void add_map_option(CommandOptions &options);

/// Adds --partial, of commands that judge several lanes, runs or samples of a file.
void add_partial_option(CommandOptions &options);

/// What the user calls columns: as --map says, which the library remembers under the name of --as;
/// as it remembers under that name, where there is no --map. Call it before the library is opened.
/// Throws InputError for what is no COLUMN=HEADER, a column that is given twice, and a name under
/// which nothing is remembered.
[[nodiscard]] std::vector<ColumnAlias> aliases_of(const CommandOptions &options,
                                                  const Invocation &invocation);

} // namespace cospot
