#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot::html {

/// Text for an element or a quoted attribute of HTML or SVG: made `printable`, & < > " ' escaped.
[[nodiscard]] std::string escaped(std::string_view text);

/// A cell of a table.
struct Cell {
    std::string content;           ///< HTML
    std::optional<double> value{}; ///< a number to sort by
};

struct Column {
    std::string title; ///< plain text
    bool is_number = false;
};

struct Row {
    std::vector<Cell> cells;
    std::string key{}; ///< ties the row to marks of a picture; may be empty
};

struct Table {
    std::string caption; ///< plain text
    std::vector<Column> columns;
    std::vector<Row> rows;
    bool is_sortable = false;
    std::size_t heading_column = 0; ///< whose cells are the headings of their rows
    std::string label{};            ///< for those who hear the page; else the caption
};

/// The table without the columns that have no content in any row.
[[nodiscard]] Table without_empty_columns(const Table &table);

/// The table in a frame of its own that scrolls where the window is narrow.
[[nodiscard]] std::string table_html(const Table &table);

/// Sentences (plain text) as a list of that style class below a heading that may be empty; nothing
/// where there are no sentences.
[[nodiscard]] std::string list_html(std::string_view heading,
                                    const std::vector<std::string> &sentences,
                                    std::string_view style_class);

/// A picture with its caption (HTML).
[[nodiscard]] std::string figure_html(std::string_view picture, std::string_view caption);

} // namespace cospot::html
