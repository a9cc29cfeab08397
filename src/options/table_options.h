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

/// Adds --ladder-map, of commands that read a ladder.
void add_ladder_map_option(CommandOptions &options);

/// What the user calls columns.
struct GivenColumns {
    std::vector<ColumnAlias> of_tables;
    std::vector<ColumnAlias> of_ladder; ///< --ladder-map, and of --map what it does not say
};

/// What the user calls columns: as --map and --ladder-map say, which the library remembers under
/// the name of --as; as it remembers under that name, where they are not given. Several headers for
/// one column are of several tables: each takes the one that it has. Call it before the library is
/// opened. Throws InputError for what is no COLUMN=HEADER, the same header twice for a column,
/// and a name under which nothing is remembered.
[[nodiscard]] GivenColumns columns_of(const CommandOptions &options, const Invocation &invocation);

/// The same of a command that reads no ladder.
[[nodiscard]] std::vector<ColumnAlias> aliases_of(const CommandOptions &options,
                                                  const Invocation &invocation);

} // namespace cospot
