#include "document/html.h"

#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot::html {

std::string escaped(std::string_view text) {
    std::string result;
    for (const char c : printable(text)) {
        switch (c) {
        case '&':
            result += "&amp;";
            break;
        case '<':
            result += "&lt;";
            break;
        case '>':
            result += "&gt;";
            break;
        case '"':
            result += "&quot;";
            break;
        case '\'':
            result += "&#39;";
            break;
        default:
            result += c;
        }
    }
    return result;
}

namespace {

std::string heading_row(const Table &table) {
    std::string html = "<thead><tr>";
    for (const Column &column : table.columns) {
        html += fmt::format(R"(<th scope="col"{}>{}</th>)",
                            column.is_number ? R"( class="number")" : "", escaped(column.title));
    }
    return html + "</tr></thead>\n";
}

std::string row_html(const Row &row, const Table &table) {
    std::string html =
        row.key.empty() ? "<tr>" : fmt::format(R"(<tr data-key="{}">)", escaped(row.key));
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
        const Cell &cell = row.cells[i];
        const bool is_heading = i == table.heading_column;
        const char *element = is_heading ? "th" : "td";
        html += fmt::format("<{}{}{}{}>{}</{}>", element, is_heading ? R"( scope="row")" : "",
                            table.columns[i].is_number ? R"( class="number")" : "",
                            cell.value ? fmt::format(R"( data-value="{}")", *cell.value) : "",
                            cell.content, element);
    }
    return html + "</tr>\n";
}

} // namespace

Table without_empty_columns(const Table &table) {
    Table kept = table;
    kept.columns.clear();
    for (Row &row : kept.rows) {
        row.cells.clear();
    }
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        if (std::all_of(table.rows.begin(), table.rows.end(),
                        [&](const Row &row) { return row.cells[i].content.empty(); })) {
            continue;
        }
        if (i == table.heading_column) {
            kept.heading_column = kept.columns.size();
        }
        kept.columns.push_back(table.columns[i]);
        for (std::size_t row = 0; row < table.rows.size(); ++row) {
            kept.rows[row].cells.push_back(table.rows[row].cells[i]);
        }
    }
    return kept;
}

std::string table_html(const Table &table) {
    std::string html = fmt::format(
        "<div class=\"wide\" role=\"region\" tabindex=\"0\" aria-label=\"{}\">\n<table{}>\n",
        escaped(table.label.empty() ? table.caption : table.label),
        table.is_sortable ? R"( class="sortable")" : "");
    if (!table.caption.empty()) {
        html += "<caption>" + escaped(table.caption) + "</caption>\n";
    }
    html += heading_row(table) + "<tbody>\n";
    for (const Row &row : table.rows) {
        html += row_html(row, table);
    }
    return html + "</tbody>\n</table>\n</div>\n";
}

std::string list_html(std::string_view heading, const std::vector<std::string> &sentences,
                      std::string_view style_class) {
    if (sentences.empty()) {
        return {};
    }
    std::string items;
    for (const std::string &sentence : sentences) {
        items += "<li>" + escaped(sentence) + "</li>\n";
    }
    const std::string title =
        heading.empty() ? "" : "<p class=\"what\">" + escaped(heading) + "</p>\n";
    return title + fmt::format("<ul class=\"{}\">\n{}</ul>\n", style_class, items);
}

std::string figure_html(std::string_view picture, std::string_view caption) {
    return fmt::format("<figure>\n<div class=\"wide\" role=\"region\" tabindex=\"0\" "
                       "aria-label=\"picture\">{}</div>\n<figcaption>{}</figcaption>\n</figure>\n",
                       picture, caption);
}

} // namespace cospot::html
