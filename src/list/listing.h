#pragma once

#include "library/column_runs.h"
#include "library/selection.h"
#include "library/sheets.h"

#include <cstddef>
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

using ListedSheets = std::vector<library::RememberedSheet>;

/// A page of what a library holds of one kind.
struct Listing {
    std::variant<ListedCompounds, ListedSystems, ListedColumns, ListedSheets> rows;
    std::size_t found = 0; ///< how many there are on all pages
    library::Page page;
};

/// What a call of `list` asks for.
struct ListQuestion {
    enum class Kind { compounds, systems, columns, sheets };
    Kind kind = Kind::compounds;
    library::Selection
        selection; ///< of compounds; of systems its technique, name and part of a name
    library::Page page;
};

[[nodiscard]] Listing listing(library::Database &database, const ListQuestion &question);

} // namespace cospot
