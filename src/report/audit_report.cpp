#include "report/audit_report.h"

#include "audit/finding.h"
#include "output/audit_text.h"
#include "report/html.h"
#include "report/identify_result.h"
#include "report/json_cells.h"
#include "report/replicate_picture.h"
#include "report/structure_gallery.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

namespace {

using html::escaped;

/// Ties a value to its row; a value may stand in several findings.
std::string key_of(const Json &row, std::size_t finding) {
    return fmt::format("{}-{}", finding, row.at("measurement").get<std::int64_t>());
}

bool is_suspect(const Json &row) {
    return row.at("suspect").get<bool>();
}

std::string badge(const Json &finding) {
    const std::string severity = text_in(finding, "severity");
    return fmt::format("<span class=\"badge {}\">{}</span>", escaped(severity), escaped(severity));
}

bool is_everywhere_equal(const Json &rows, const char *field) {
    return std::all_of(rows.begin(), rows.end(),
                       [&](const Json &row) { return row.at(field) == rows.front().at(field); });
}

/// Several values of one compound and quantity on one system.
bool are_replicates(const Json &rows) {
    return rows.size() > 1 && is_everywhere_equal(rows, "compound") &&
           is_everywhere_equal(rows, "system") && is_everywhere_equal(rows, "quantity");
}

std::string chart(const Json &finding, std::size_t position) {
    const Json &rows = finding.at("rows");
    if (!are_replicates(rows)) {
        return {};
    }
    std::vector<DrawnValue> values;
    for (const Json &row : rows) {
        const std::string shown = shown_value_of(row.at("quantity"), row.at("value").get<double>());
        values.push_back({key_of(row, position),
                          fmt::format("{} {} {}{}", shown, text_in(row, "date"),
                                      text_in(row, "run"), is_suspect(row) ? ", suspect" : ""),
                          text_in(row, "date"), row.at("value").get<double>(), is_suspect(row)});
    }
    return html::figure_html(replicate_picture(values, text_in(rows.front(), "quantity"),
                                               "Values of " + text_in(finding, "subject")),
                             "Filled diamonds: suspect values. Rings: values for comparison.");
}

std::string unbroken(const std::string &text) {
    return "<span class=\"nowrap\">" + escaped(text) + "</span>";
}

std::string rows_table(const Json &finding, std::size_t position) {
    if (finding.at("rows").empty()) {
        return {};
    }
    html::Table table;
    table.caption = "Values behind the finding";
    table.columns = {{"Value no.", true}, {"Role"}, {"Value", true}, {"Date"}, {"Run"}};
    // The subject names what all rows share.
    for (const char *column : {"compound", "system"}) {
        if (!is_everywhere_equal(finding.at("rows"), column)) {
            table.columns.push_back({column == std::string_view("system") ? "System" : "Compound"});
        }
    }
    table.is_sortable = finding.at("rows").size() > 3;
    for (const Json &row : finding.at("rows")) {
        const double value = row.at("value").get<double>();
        const auto number = row.at("measurement").get<std::int64_t>();
        html::Row cells{
            {{std::to_string(number), static_cast<double>(number)},
             {is_suspect(row) ? "<b>suspect</b>" : "compare"},
             {escaped(text_in(row, "quantity") + ' ' + shown_value_of(row.at("quantity"), value)),
              value},
             {unbroken(text_in(row, "date"))},
             {unbroken(text_in(row, "run"))}},
            key_of(row, position)};
        for (const char *column : {"compound", "system"}) {
            if (!is_everywhere_equal(finding.at("rows"), column)) {
                cells.cells.push_back({escaped(text_in(row, column))});
            }
        }
        table.rows.push_back(std::move(cells));
    }
    return table_html(table);
}

std::string structures(const Json &finding) {
    std::vector<ShownCompound> compounds;
    for (const Json &structure : finding.at("structures")) {
        const auto values = structure.at("values").get<std::int64_t>();
        compounds.push_back({text_in(structure, "compound"), text_in(structure, "smiles"),
                             fmt::format("{} value{}, {}", values, values == 1 ? "" : "s",
                                         text_in(structure, "inchikey"))});
    }
    return structure_gallery(compounds);
}

std::string finding_html(const Json &finding, std::size_t position) {
    return fmt::format("<article id=\"finding-{}\">\n<h3>{} {}</h3>\n<p>{}</p>\n", position,
                       escaped(text_in(finding, "subject")), badge(finding),
                       escaped(text_in(finding, "text"))) +
           "<div class=\"beside\">\n" + chart(finding, position) + rows_table(finding, position) +
           "</div>\n" + structures(finding) +
           fmt::format("<p><i>To do:</i> {}</p>\n</article>\n",
                       escaped(text_in(finding, "advice")));
}

std::string overview(const Json &results) {
    html::Table table;
    table.caption = "All findings";
    table.columns = {{"No.", true}, {"Severity"}, {"Kind"}, {"Subject"}, {"Values", true}};
    table.is_sortable = true;
    table.heading_column = 3;
    const std::map<std::string, double> order{{"grave", 0}, {"doubtful", 1}, {"minor", 2}};
    for (std::size_t i = 0; i < results.size(); ++i) {
        const Json &finding = results[i];
        const auto rows = static_cast<double>(finding.at("rows").size());
        table.rows.push_back({{{std::to_string(i + 1), static_cast<double>(i + 1)},
                               {badge(finding), order.at(text_in(finding, "severity"))},
                               {escaped(text_in(finding, "kind"))},
                               {fmt::format("<a href=\"#finding-{}\">{}</a>", i + 1,
                                            escaped(text_in(finding, "subject")))},
                               {rows > 0 ? fmt::format("{:g}", rows) : "", rows}}});
    }
    return "<h2>At a glance</h2>\n" + table_html(table) +
           "<p><small>Grave: cannot be true. Doubtful: may well be wrong. Minor: the library is "
           "thin here.</small></p>\n";
}

PageContent audit_page(const Report &report) {
    std::string body;
    if (report.results.empty()) {
        body = "<p class=\"verdict\">No findings.</p>\n";
    } else {
        body = overview(report.results);
    }
    std::string kind;
    for (std::size_t i = 0; i < report.results.size(); ++i) {
        const Json &finding = report.results[i];
        if (text_in(finding, "kind") != kind) {
            kind = text_in(finding, "kind");
            const auto known = finding_kind_from_text(kind);
            body += fmt::format("<h2>{}</h2>\n", escaped(heading_of(known.value())));
        }
        body += finding_html(finding, i + 1);
    }
    const std::size_t count = report.results.size();
    return {"What in the library needs a look",
            fmt::format("{} finding{}. Nothing was changed.", count, count == 1 ? "" : "s"), body};
}

/// One row a finding.
FlatTable audit_flat_table(const Json &results) {
    FlatTable table{{"kind", "severity", "subject", "text", "advice", "values", "suspect_values"},
                    {}};
    for (const Json &finding : results) {
        const Json &rows = finding.at("rows");
        std::vector<Json> row;
        for (const char *field : {"kind", "severity", "subject", "text", "advice"}) {
            row.push_back(finding.at(field));
        }
        row.emplace_back(rows.size());
        row.emplace_back(std::count_if(rows.begin(), rows.end(), is_suspect));
        table.rows.push_back(std::move(row));
    }
    return table;
}

} // namespace

const ReportDrawing &audit_report() {
    static constexpr ReportDrawing drawing{audit_page, audit_flat_table};
    return drawing;
}

} // namespace cospot
