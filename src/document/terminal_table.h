#pragma once

#include "document/document.h"
#include "document/style.h"

#include <cstddef>
#include <string>
#include <vector>

namespace cospot {

/// How wide each column of a table is on a terminal; 0 for a column that is empty in every row.
using ColumnWidths = std::vector<std::size_t>;

/// The widths that the texts ask for. Tables of one kind have as many columns each.
[[nodiscard]] ColumnWidths natural_widths(const std::vector<const Table *> &alike);

/// The table in at most `width` columns: texts are broken into lines where the natural widths do
/// not fit, numbers never are. A table of numbers that does not fit is printed in parts, some
/// columns after the others; any other row by row, each cell after its title.
[[nodiscard]] std::string table_text(const Table &table, ColumnWidths widths, std::size_t width,
                                     const Style &style, bool with_headings);

} // namespace cospot
