#include "document/terminal_table.h"

#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot {

namespace {

constexpr std::size_t kGap = 2;             ///< blanks between columns
constexpr std::size_t kMinTextWidth = 12;   ///< of a column whose texts are broken
constexpr std::size_t kMinTitledWidth = 24; ///< of a cell behind its title

std::string styled(const std::string &text, Emphasis emphasis, const Style &style) {
    switch (emphasis) {
    case Emphasis::strong:
    case Emphasis::alarm:
        return style.strong(text);
    case Emphasis::faint:
        return style.faint(text);
    case Emphasis::none:
    case Emphasis::badge:
        break;
    }
    return text;
}

std::size_t total_of(const ColumnWidths &widths) {
    std::size_t total = 0;
    for (const std::size_t width : widths) {
        total += width == 0 ? 0 : width + kGap;
    }
    return total == 0 ? 0 : total - kGap;
}

std::size_t longest_word(std::string_view text) {
    std::size_t longest = 0;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find(' ', begin), text.size());
        longest = std::max(longest, display_width(text.substr(begin, end - begin)));
        begin = end + 1;
    }
    return longest;
}

/// How narrow the columns may become; those of numbers keep their width.
ColumnWidths least_widths(const Table &table, const ColumnWidths &widths) {
    ColumnWidths least = widths;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        if (!table.columns[i].is_number) {
            least[i] = std::min(widths[i], kMinTextWidth);
        }
    }
    return least;
}

/// The same without breaking a word.
ColumnWidths unbroken_widths(const Table &table, const ColumnWidths &widths) {
    ColumnWidths least = least_widths(table, widths);
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        if (!table.columns[i].is_number) {
            for (const Row &row : table.rows) {
                least[i] = std::max(least[i], longest_word(row.cells[i].text));
            }
        }
    }
    return least;
}

/// Takes from the widest column until the table fits; false if it cannot without going below the
/// least widths.
bool narrow(ColumnWidths &widths, const ColumnWidths &least, std::size_t width) {
    while (total_of(widths) > width) {
        std::size_t *widest = nullptr;
        for (std::size_t i = 0; i < widths.size(); ++i) {
            if (widths[i] > least[i] && (widest == nullptr || widths[i] > *widest)) {
                widest = &widths[i];
            }
        }
        if (widest == nullptr) {
            return false;
        }
        --*widest;
    }
    return true;
}

/// Makes the table fit, words whole where that is possible; false where it cannot.
bool fit(ColumnWidths &widths, const Table &table, std::size_t width) {
    return total_of(widths) <= width || narrow(widths, unbroken_widths(table, widths), width) ||
           narrow(widths, least_widths(table, widths), width);
}

std::vector<std::string> lines_of(const std::string &text, std::size_t width) {
    std::vector<std::string> lines;
    const std::string broken = wrapped(printable(text), 0, width);
    for (std::size_t begin = 0; begin < broken.size();) {
        const std::size_t end = broken.find('\n', begin);
        lines.push_back(fitted(broken.substr(begin, end - begin), width));
        begin = end + 1;
    }
    return lines;
}

std::string filled(const std::string &text, std::size_t width, bool is_number) {
    const std::string blanks(width - std::min(width, display_width(text)), ' ');
    return is_number ? blanks + text : text + blanks;
}

/// One row of cells, as many lines high as its highest cell.
std::string row_text(const std::vector<Cell> &cells, const Table &table, const ColumnWidths &widths,
                     const Style &style) {
    std::vector<std::vector<std::string>> lines(cells.size());
    std::size_t height = 1;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (widths[i] > 0) {
            lines[i] = lines_of(cells[i].text, widths[i]);
            height = std::max(height, lines[i].size());
        }
    }
    std::string text;
    for (std::size_t line = 0; line < height; ++line) {
        std::string whole;
        for (std::size_t i = 0; i < cells.size(); ++i) {
            if (widths[i] > 0) {
                const std::string part = line < lines[i].size() ? lines[i][line] : "";
                whole += styled(filled(part, widths[i], table.columns[i].is_number),
                                part.empty() ? Emphasis::none : cells[i].emphasis, style) +
                         std::string(kGap, ' ');
            }
        }
        text += without_end_blanks(whole) + '\n';
    }
    return text;
}

std::string notes_text(const Row &row, const Table &table, const ColumnWidths &widths,
                       std::size_t width) {
    std::size_t indent = kGap;
    for (std::size_t i = 0; i < table.heading_column; ++i) {
        indent += widths[i] == 0 ? 0 : widths[i] + kGap;
    }
    std::string text;
    for (const std::string &note : row.notes) {
        text += wrapped(printable(note), indent, width);
    }
    return text;
}

std::vector<Cell> titles(const Table &table) {
    std::vector<Cell> cells;
    for (const Column &column : table.columns) {
        cells.push_back({column.title, {}, Emphasis::faint});
    }
    return cells;
}

/// Row by row, each cell after the title of its column.
std::string titled_rows(const Table &table, std::size_t width, const Style &style) {
    std::string text;
    for (const Row &row : table.rows) {
        text += style.strong(fitted(printable(row.cells[table.heading_column].text), width)) + '\n';
        for (std::size_t i = 0; i < row.cells.size(); ++i) {
            if (i == table.heading_column || row.cells[i].text.empty()) {
                continue;
            }
            text += wrapped(table.columns[i].title + ": " + printable(row.cells[i].text), kGap,
                            std::max(width, kMinTitledWidth));
        }
        for (const std::string &note : row.notes) {
            text += wrapped(printable(note), kGap, width);
        }
    }
    return text;
}

/// The headings of the rows beside as many columns of numbers as fit, and again beside the next
/// ones; nothing where the table has other columns of texts, or one column is too wide.
std::string in_parts(const Table &table, const ColumnWidths &widths, std::size_t width,
                     const Style &style) {
    const std::size_t heading =
        std::min(widths[table.heading_column], std::max(kMinTextWidth, width / 3));
    const auto with_heading = [&] {
        ColumnWidths part(widths.size(), 0);
        part[table.heading_column] = heading;
        return part;
    };
    std::string text;
    ColumnWidths part = with_heading();
    for (std::size_t i = 0; i < widths.size(); ++i) {
        if (i == table.heading_column) {
            continue;
        }
        if (!table.columns[i].is_number || heading + kGap + widths[i] > width) {
            return {};
        }
        if (total_of(part) + kGap + widths[i] > width) {
            text += table_text(table, part, width, style, true) + '\n';
            part = with_heading();
        }
        part[i] = widths[i];
    }
    return text + table_text(table, part, width, style, true);
}

} // namespace

ColumnWidths natural_widths(const std::vector<const Table *> &alike) {
    ColumnWidths widths(alike.front()->columns.size(), 0);
    for (const Table *table : alike) {
        for (const Row &row : table->rows) {
            for (std::size_t i = 0; i < row.cells.size(); ++i) {
                widths[i] = std::max(widths[i], display_width(printable(row.cells[i].text)));
            }
        }
    }
    for (std::size_t i = 0; i < widths.size(); ++i) {
        if (widths[i] > 0) {
            widths[i] = std::max(widths[i], display_width(alike.front()->columns[i].title));
        }
    }
    return widths;
}

std::string table_text(const Table &table, ColumnWidths widths, std::size_t width,
                       const Style &style, bool with_headings) {
    const ColumnWidths natural = widths;
    if (!fit(widths, table, width)) {
        const std::string parts = in_parts(table, natural, width, style);
        return parts.empty() ? titled_rows(table, width, style) : parts;
    }
    std::string text = with_headings ? row_text(titles(table), table, widths, style) : "";
    const std::size_t count =
        table.max_rows == 0 ? table.rows.size() : std::min(table.max_rows, table.rows.size());
    for (std::size_t i = 0; i < count; ++i) {
        text += row_text(table.rows[i].cells, table, widths, style) +
                notes_text(table.rows[i], table, widths, width);
    }
    if (count < table.rows.size()) {
        text += style.faint(
                    fmt::format("and {} more (--report shows all)", table.rows.size() - count)) +
                '\n';
    }
    return text;
}

} // namespace cospot
