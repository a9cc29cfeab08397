#include "output/audit_text.h"

#include "audit/audit_data.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace cospot {

namespace {

constexpr std::size_t kMostSuspects = 10;
constexpr std::size_t kMostOthers = 9;
constexpr std::size_t kWidth = 80;

/// A column of the rows: as wide as its texts, but not wider than `most`.
struct Column {
    std::vector<std::string> texts;
    std::size_t most = 0;

    [[nodiscard]] std::size_t width() const {
        std::size_t width = 0;
        for (const std::string &text : texts) {
            width = std::max(width, display_width(printable(text)));
        }
        return std::min(width, most);
    }
    [[nodiscard]] bool is_everywhere_equal() const {
        return std::all_of(texts.begin(), texts.end(),
                           [&](const std::string &text) { return text == texts.front(); });
    }
};

/// The rows that there is room for: the first suspect ones and the first for comparison.
std::vector<FindingRow> shown_rows(const Finding &finding) {
    std::vector<FindingRow> rows;
    std::size_t suspects = 0;
    std::size_t others = 0;
    for (const FindingRow &row : finding.rows) {
        if (row.is_suspect ? suspects++ < kMostSuspects : others++ < kMostOthers) {
            rows.push_back(row);
        }
    }
    return rows;
}

std::string rows_text(const Finding &finding, library::Database &database) {
    const std::vector<FindingRow> rows = shown_rows(finding);
    Column compound{{}, 26};
    Column system{{}, 18};
    Column value{{}, 12};
    Column date{{}, 10};
    Column run{{}, kWidth};
    for (const FindingRow &row : rows) {
        ShownValue shown_row = shown_value(database, row.measurement);
        value.texts.push_back(fmt::format("{} {}", to_text(shown_row.quantity),
                                          shown(shown_row.quantity, shown_row.value)));
        compound.texts.push_back(std::move(shown_row.compound));
        system.texts.push_back(std::move(shown_row.system));
        date.texts.push_back(std::move(shown_row.date));
        run.texts.push_back(std::move(shown_row.run));
    }
    // The subject names what all rows share.
    std::vector<const Column *> columns;
    for (const Column *column : {&compound, &system}) {
        if (!column->is_everywhere_equal()) {
            columns.push_back(column);
        }
    }
    for (const Column *column : {&value, &date, &run}) {
        columns.push_back(column);
    }
    std::string text;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        std::string line =
            fmt::format("    {} #{:<7}", rows[i].is_suspect ? '*' : ' ', rows[i].measurement);
        for (const Column *column : columns) {
            if (column->width() > 0) {
                line += ' ' + padded(column->texts[i], column->width());
            }
        }
        line = fitted(line, kWidth);
        text += line.substr(0, line.find_last_not_of(' ') + 1) + '\n';
    }
    if (rows.size() < finding.rows.size()) {
        text += fmt::format("      and {} more (--json lists all)\n",
                            finding.rows.size() - rows.size());
    }
    return text;
}

std::string structures_text(const Finding &finding, library::Database &database) {
    std::string text;
    for (const std::int64_t id : finding.structures) {
        const ShownStructure structure = shown_structure(database, id);
        text += fmt::format("    * {} {}  {} {}\n", structure.inchikey, padded(structure.name, 30),
                            structure.values, structure.values == 1 ? "value" : "values");
    }
    return text;
}

} // namespace

std::string_view heading_of(FindingKind kind) {
    switch (kind) {
    case FindingKind::replicates:
        return "Replicates that disagree";
    case FindingKind::drift:
        return "Drift over time";
    case FindingKind::physical_range:
        return "Values that cannot be";
    case FindingKind::elution_order:
        return "Elution order unlike elsewhere";
    case FindingKind::coverage:
        return "Where the library is thin";
    case FindingKind::identity:
        return "Structures and names in conflict";
    }
    return "";
}

std::string finding_text(const Finding &finding, library::Database &database, const Style &style) {
    return "  " + style.strong(fitted(printable(finding.subject), kWidth - 2)) + '\n' +
           wrapped(printable(finding.text), 4) + rows_text(finding, database) +
           structures_text(finding, database) + wrapped("To do: " + finding.advice, 4);
}

std::string counts_text(const std::vector<Finding> &findings) {
    if (findings.empty()) {
        return "no findings\n";
    }
    std::string kinds;
    for (const FindingKind kind : kFindingKinds) {
        const auto count = std::count_if(findings.begin(), findings.end(),
                                         [&](const Finding &f) { return f.kind == kind; });
        if (count > 0) {
            kinds += fmt::format("{}{} {}", kinds.empty() ? "" : ", ", count, to_text(kind));
        }
    }
    return wrapped(
        fmt::format("{} finding{}: {}", findings.size(), findings.size() == 1 ? "" : "s", kinds),
        0);
}

} // namespace cospot
