#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

/// What a verb has to say, once: the terminal, the page and the table of a report are all rendered
/// from it, so that they cannot say different things. All texts are plain: each renderer escapes
/// what its format needs.
namespace cospot {

enum class Emphasis {
    none,
    strong,
    faint,
    badge, ///< framed on a page
    alarm  ///< framed, and in the accent colour: needs a look
};

/// A cell of a table.
struct Cell {
    std::string text;
    std::optional<double> value{}; ///< a number to sort by
    Emphasis emphasis = Emphasis::none;
    std::string section{}; ///< anchor of the section that a page leads to; may be empty
    std::string svg{};     ///< a small picture, which a page shows in the text's place
};

struct Column {
    std::string title;
    bool is_number = false; ///< set flush right; never cut or broken
};

struct Row {
    std::vector<Cell> cells;
    std::vector<std::string> notes{}; ///< sentences below the row
    std::string mark{};               ///< ties the row to marks of a figure; may be empty
};

struct Table {
    std::string label;     ///< what the table is, for those who hear it
    std::string caption{}; ///< seen above it; may be empty
    std::vector<Column> columns;
    std::vector<Row> rows{};
    std::size_t heading_column = 0; ///< whose cells are the headings of their rows
    bool is_sortable = false;
    std::size_t max_rows = 0; ///< on a terminal; 0: all
    /// Tables of one kind share their widths on a terminal, and only the first one printed has
    /// column headings. Empty: a table of its own.
    std::string kind{};
};

struct Paragraph {
    enum class Role { plain, verdict, advice, small };
    std::string text;
    Role role = Role::plain;
};

struct List {
    enum class Role { plain, warnings, next };
    std::string heading; ///< may be empty
    std::vector<std::string> items;
    Role role = Role::plain;
};

/// What a label of a figure stands for.
struct LegendEntry {
    std::string label; ///< as in the figure; empty: `text` is a heading of those that follow
    std::string text;
    std::string value{}; ///< after the text, fainter; may be empty
};

/// A picture: SVG for a page, and lines that a terminal may show in its place.
struct Figure {
    std::string svg;
    std::string caption{};
    std::string terminal{};            ///< at most 80 columns wide; may be empty
    std::vector<LegendEntry> legend{}; ///< on a page; a terminal has the tables
};

/// A compound whose structure is drawn on a page.
struct DrawnCompound {
    std::string name;
    std::string smiles;
    std::string note{}; ///< below the name; may be empty
};

/// Structural formulas side by side, each once. A page draws them; a terminal leaves them out.
struct Structures {
    std::vector<DrawnCompound> compounds;
};

struct Block;

/// A part with its heading. A section of a section is set apart as one thing of several alike.
struct Section {
    std::string heading;
    std::string anchor{};        ///< where links of tables lead; may be empty
    std::optional<Cell> badge{}; ///< beside the heading
    std::vector<Block> blocks;
    bool is_scope = false;              ///< marks of its figures belong to its own rows only
    bool starts_sheet = false;          ///< a new one when the page is printed
    std::vector<std::string> signers{}; ///< who signs below it: a line for each, on a page
};

/// Blocks that stand beside each other where the page is wide enough.
struct Beside {
    std::vector<Block> blocks;
};

/// What is worth knowing when one asks why: on a terminal only with --explain.
struct Details {
    std::vector<Block> blocks;
    std::string summary{}; ///< where a page folds it away; empty: it does not
};

using BlockContent =
    std::variant<Paragraph, List, Table, Figure, Structures, Section, Beside, Details>;

struct Block : BlockContent {
    using BlockContent::BlockContent;
};

/// A value of the table that a report holds as CSV; none where there is nothing.
using Datum = std::variant<std::monostate, bool, std::int64_t, double, std::string>;

/// The results as rows for a spreadsheet or a script; numbers in full.
struct DataTable {
    std::vector<std::string> columns;
    std::vector<std::vector<Datum>> rows{};
};

struct Document {
    std::string title;
    std::string lead{}; ///< one sentence below the title of a page; may be empty
    std::vector<Block> blocks{};
    std::vector<std::string> warnings{}; ///< what needs a look before the results are used
    std::vector<std::string> notes{};    ///< how the results came about: what holds for all
    std::vector<std::string> cautions{}; ///< below the results
    std::vector<std::string> signers{};  ///< who signs the printed page: a line for each
    DataTable data{};
};

} // namespace cospot
