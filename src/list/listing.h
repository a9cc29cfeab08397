#pragma once

#include "library/column_runs.h"
#include "library/selection.h"
#include "options/command.h"

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace cospot {

struct ListedCompound {
    library::Compound compound;
    library::Counts counts;
};

struct ListedSystem {
    library::System system;
    library::Counts counts;
};

struct ListedColumn {
    library::PackedColumn column;
    std::size_t bands = 0; ///< of its runs
};

using ListedCompounds = std::vector<ListedCompound>;
using ListedSystems = std::vector<ListedSystem>;
using ListedColumns = std::vector<ListedColumn>;

/// What a library holds of one kind.
using Listing = std::variant<ListedCompounds, ListedSystems, ListedColumns>;

/// What a call of `list` asks for.
struct ListOptions {
    enum class Kind { compounds, systems, columns };
    Kind kind = Kind::compounds;
    library::Selection selection;            ///< of compounds or systems
    std::optional<std::string> substructure; ///< SMARTS that the compounds must hold
};

/// Opens the library of the call. Throws InputError for a SMARTS that cannot be read.
[[nodiscard]] Listing listing(const ListOptions &options, const Invocation &invocation);

} // namespace cospot
