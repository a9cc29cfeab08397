#include "document/page_body.h"

#include "document/html.h"
#include "document/structure_gallery.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot {

namespace {

using html::escaped;

constexpr std::size_t kShortName = 24; ///< characters of a link that is not broken

std::string emphasised(const std::string &html, Emphasis emphasis) {
    switch (emphasis) {
    case Emphasis::none:
        break;
    case Emphasis::strong:
        return "<b>" + html + "</b>";
    case Emphasis::faint:
        return "<small>" + html + "</small>";
    case Emphasis::badge:
        return "<span class=\"badge\">" + html + "</span>";
    case Emphasis::alarm:
        return "<span class=\"badge grave\">" + html + "</span>";
    }
    return html;
}

std::string cell_html(const Cell &cell) {
    if (!cell.svg.empty()) {
        return cell.svg;
    }
    const std::string html = emphasised(escaped(cell.text), cell.emphasis);
    return cell.section.empty() || cell.text.empty()
               ? html
               : fmt::format("<a href=\"#{}\"{}>{}</a>", escaped(cell.section),
                             display_width(cell.text) <= kShortName ? " class=\"nowrap\"" : "",
                             html);
}

html::Row row_html(const Row &row, std::size_t heading_column) {
    html::Row result{{}, row.mark};
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
        result.cells.push_back({cell_html(row.cells[i]), row.cells[i].value});
        if (i == heading_column) {
            for (const std::string &note : row.notes) {
                result.cells.back().content += "<br><small>" + escaped(note) + "</small>";
            }
        }
    }
    return result;
}

/// The label of a table that shows no caption.
std::string aria_label(const Table &table) {
    return table.caption.empty() ? table.label : table.caption;
}

std::string legend_html(const std::vector<LegendEntry> &legend) {
    std::string items;
    for (const LegendEntry &entry : legend) {
        if (entry.label.empty()) {
            items += "<li class=\"lane\">" + escaped(entry.text) + "</li>\n";
            continue;
        }
        items += fmt::format("<li data-key=\"{0}\"><b>{0}</b> {1}{2}</li>\n", escaped(entry.label),
                             escaped(entry.text),
                             entry.value.empty()
                                 ? ""
                                 : " <span class=\"number\">" + escaped(entry.value) + "</span>");
    }
    return "<ul class=\"key\" aria-label=\"what each label stands for\">\n" + items + "</ul>\n";
}

class Body {
public:
    [[nodiscard]] std::string of(const std::vector<Block> &blocks) {
        std::string html;
        for (const Block &block : blocks) {
            html += std::visit([this](const auto &content) { return html_of(content); }, block);
        }
        return html;
    }

private:
    std::string html_of(const Paragraph &paragraph) const {
        const std::string text = escaped(paragraph.text);
        switch (paragraph.role) {
        case Paragraph::Role::verdict:
            return "<p class=\"verdict\">" + text + "</p>\n";
        case Paragraph::Role::advice:
            return "<p><i>To do:</i> " + text + "</p>\n";
        case Paragraph::Role::small:
            return "<p><small>" + text + "</small></p>\n";
        case Paragraph::Role::plain:
            break;
        }
        return "<p>" + text + "</p>\n";
    }

    std::string html_of(const List &list) const {
        const char *style_class = "notes";
        if (list.role == List::Role::warnings) {
            style_class = "warnings";
        } else if (list.role == List::Role::next) {
            style_class = "next";
        }
        return html::list_html(list.heading, list.items, style_class);
    }

    std::string html_of(const Table &table) const {
        if (table.rows.empty()) {
            return {};
        }
        html::Table drawn{table.caption, {}, {}, table.is_sortable, table.heading_column};
        drawn.label = aria_label(table);
        for (const Column &column : table.columns) {
            drawn.columns.push_back({column.title, column.is_number});
        }
        for (const Row &row : table.rows) {
            drawn.rows.push_back(row_html(row, table.heading_column));
        }
        return table_html(without_empty_columns(drawn));
    }

    std::string html_of(const Figure &figure) const {
        if (figure.svg.empty() || figure.caption.empty()) {
            return figure.svg;
        }
        const std::string html = html::figure_html(figure.svg, escaped(figure.caption));
        return figure.legend.empty()
                   ? html
                   : "<div class=\"beside\">\n" + html + legend_html(figure.legend) + "</div>\n";
    }

    std::string html_of(const Structures &structures) const {
        std::vector<ShownCompound> shown;
        for (const DrawnCompound &compound : structures.compounds) {
            shown.push_back({compound.name, compound.smiles, compound.note});
        }
        return structure_gallery(shown);
    }

    std::string html_of(const Section &section) {
        const bool is_part = depth_ > 0; // one of several alike
        const int level = std::min(depth_ + 2, 4);
        const std::string anchor =
            section.anchor.empty() ? "" : fmt::format(" id=\"{}\"", escaped(section.anchor));
        std::string html = fmt::format("<{}{}{}{}>\n", is_part ? "article" : "section", anchor,
                                       section.starts_sheet ? " class=\"sheet\"" : "",
                                       section.is_scope ? " data-scope" : "");
        html += fmt::format("<h{0}>{1}{2}</h{0}>\n", level, escaped(section.heading),
                            section.badge ? ' ' + cell_html(*section.badge) : "");
        ++depth_;
        html += of(section.blocks) + signature_lines(section.signers);
        --depth_;
        return html + (is_part ? "</article>\n" : "</section>\n");
    }

    std::string html_of(const Beside &beside) {
        return "<div class=\"beside\">\n" + of(beside.blocks) + "</div>\n";
    }

    std::string html_of(const Details &details) {
        const std::string html = of(details.blocks);
        return details.summary.empty() ? html
                                       : "<details>\n<summary>" + escaped(details.summary) +
                                             "</summary>\n" + html + "</details>\n";
    }

    int depth_ = 0;
};

} // namespace

std::string page_body(const std::vector<Block> &blocks) {
    return Body().of(blocks);
}

std::string signature_lines(const std::vector<std::string> &signers) {
    if (signers.empty()) {
        return {};
    }
    std::string rows;
    for (const std::string &signer : signers) {
        rows += fmt::format(R"(<tr><th scope="row">{}</th><td></td><td></td><td></td></tr>)",
                            escaped(signer)) +
                '\n';
    }
    return "<table class=\"signatures\">\n<thead><tr><th scope=\"col\">Signed by</th>"
           "<th scope=\"col\">Name</th><th scope=\"col\">Date</th>"
           "<th scope=\"col\">Signature</th></tr></thead>\n<tbody>\n" +
           rows + "</tbody>\n</table>\n";
}

} // namespace cospot
