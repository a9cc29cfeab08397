#pragma once

#include "library/compounds.h"
#include "library/selection.h"
#include "options/options.h"

#include <cstddef>
#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// Adds the options that pick a part of the library: technique, system, name, mass, date,
/// substructure.
void add_selection_options(CommandOptions &options);

/// Reads them (but for the substructure). Throws InputError for values that cannot be.
[[nodiscard]] library::Selection selection_of(const CommandOptions &options);

/// The ids of the selected compounds that hold the substructure asked for, sorted. Needs RDKit.
/// Says on `messages` for how many it could not be decided in time. Throws InputError for a SMARTS
/// that cannot be read.
[[nodiscard]] std::vector<library::CompoundId>
with_substructure(library::Database &database, const library::Selection &selection,
                  const std::string &smarts, std::ostream &messages);

/// The selection with the substructure, where one is asked for. Throws as both.
[[nodiscard]] library::Selection narrowed_selection(const CommandOptions &options,
                                                    library::Database &database,
                                                    std::ostream &messages);

/// The whole number of an option such as --top; nothing where it is missing. Throws InputError
/// below `least`.
[[nodiscard]] std::optional<std::size_t> count_option(const CommandOptions &options,
                                                      const char *name, int least);

} // namespace cospot
