#include "audit/audit_document.h"

#include "audit/replicate_picture.h"
#include "document/cells.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>

namespace cospot {

namespace {

constexpr std::size_t kMostInFull = 100; ///< findings of a kind
constexpr std::size_t kMostInOverview = 1000;
constexpr std::size_t kMaxValues = 20; ///< of a finding, on a terminal

std::string heading_of(FindingKind kind) {
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

Cell severity_cell(FindingKind kind) {
    const Severity severity = severity_of(kind);
    return {std::string(to_text(severity)), static_cast<double>(severity),
            severity == Severity::grave ? Emphasis::alarm : Emphasis::badge};
}

std::string value_text(const ShownValue &value) {
    return fmt::format("{} {}", to_text(value.quantity), shown(value.quantity, value.value));
}

template <typename Field>
bool is_everywhere_equal(const std::vector<ShownFinding::Value> &values, Field ShownValue::*field) {
    return std::all_of(values.begin(), values.end(), [&](const ShownFinding::Value &one) {
        return one.value.*field == values.front().value.*field;
    });
}

/// Several values of one compound and quantity on one system.
bool are_replicates(const std::vector<ShownFinding::Value> &values) {
    return values.size() > 1 && is_everywhere_equal(values, &ShownValue::compound) &&
           is_everywhere_equal(values, &ShownValue::system) &&
           is_everywhere_equal(values, &ShownValue::quantity);
}

/// Ties a value to its row; a value may stand in several findings.
std::string mark_of(const ShownFinding::Value &value, std::size_t position) {
    return fmt::format("{}-{}", position, value.row.measurement);
}

Figure replicates_of(const ShownFinding &shown, std::size_t position) {
    std::vector<DrawnValue> drawn;
    for (const ShownFinding::Value &one : shown.values) {
        drawn.push_back({mark_of(one, position),
                         fmt::format("{} {} {}{}", value_text(one.value), one.value.date,
                                     one.value.run, one.row.is_suspect ? ", suspect" : ""),
                         one.value.date, one.value.value, one.row.is_suspect});
    }
    const ShownValue &first = shown.values.front().value;
    return {replicate_picture(drawn, std::string(to_text(first.quantity)),
                              "Values of " + shown.finding.subject),
            "Filled diamonds: suspect values. Rings: values for comparison."};
}

/// The suspect values first, so that a terminal never leaves them out. What all values share is in
/// the subject of the finding.
Table values_table(const ShownFinding &shown, std::size_t position) {
    Table table{.label = "Values behind the finding on " + shown.finding.subject,
                .columns = {{""}, {"No.", true}, {"Value"}, {"Date"}, {"Run"}},
                .heading_column = 1,
                .is_sortable = shown.values.size() > 3,
                .max_rows = kMaxValues};
    std::vector<std::string ShownValue::*> differing;
    for (const auto &[field, title] :
         {std::pair{&ShownValue::compound, "Compound"}, std::pair{&ShownValue::system, "System"}}) {
        if (!is_everywhere_equal(shown.values, field)) {
            differing.push_back(field);
            table.columns.push_back({title});
        }
    }
    std::vector<ShownFinding::Value> values = shown.values;
    std::stable_partition(values.begin(), values.end(),
                          [](const ShownFinding::Value &one) { return one.row.is_suspect; });
    for (const ShownFinding::Value &one : values) {
        Row row{.cells = {{one.row.is_suspect ? "suspect" : "compare",
                           {},
                           one.row.is_suspect ? Emphasis::strong : Emphasis::none},
                          {fmt::format("#{}", one.row.measurement),
                           static_cast<double>(one.row.measurement)},
                          {value_text(one.value), one.value.value},
                          {one.value.date},
                          {one.value.run}},
                .mark = mark_of(one, position)};
        for (const auto field : differing) {
            row.cells.push_back({one.value.*field});
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

Structures structures_of(const ShownFinding &shown) {
    Structures drawn;
    for (const ShownStructure &structure : shown.structures) {
        drawn.compounds.push_back({structure.name, structure.smiles,
                                   counted(structure.values, "value") + ", " + structure.inchikey});
    }
    return drawn;
}

Table structures_table(const ShownFinding &shown) {
    Table table{.label = "Structures in conflict",
                .columns = {{"InChIKey"}, {"Compound"}, {"Values", true}}};
    for (const ShownStructure &structure : shown.structures) {
        table.rows.push_back({{{structure.inchikey},
                               {structure.name},
                               count_cell(static_cast<std::size_t>(structure.values))}});
    }
    return table;
}

std::string anchor_of(std::size_t position) {
    return fmt::format("finding-{}", position);
}

Section finding_section(const ShownFinding &shown, std::size_t position, bool with_advice) {
    Section section{shown.finding.subject,
                    anchor_of(position),
                    severity_cell(shown.finding.kind),
                    {Paragraph{shown.finding.text}}};
    if (are_replicates(shown.values)) {
        section.blocks.push_back(
            Beside{{replicates_of(shown, position), values_table(shown, position)}});
    } else if (!shown.values.empty()) {
        section.blocks.push_back(values_table(shown, position));
    }
    if (!shown.structures.empty()) {
        section.blocks.push_back(structures_of(shown));
        section.blocks.push_back(structures_table(shown));
    }
    if (with_advice) {
        section.blocks.push_back(Paragraph{shown.finding.advice, Paragraph::Role::advice});
    }
    return section;
}

/// The findings of one kind; advice that all of them share is given once.
Section kind_section(FindingKind kind, const std::vector<ShownFinding> &findings) {
    Section section{heading_of(kind), "", {}, {}};
    const ShownFinding *first = nullptr;
    bool shares_advice = true;
    for (const ShownFinding &shown : findings) {
        if (shown.finding.kind == kind) {
            first = first == nullptr ? &shown : first;
            shares_advice = shares_advice && shown.finding.advice == first->finding.advice;
        }
    }
    if (shares_advice) {
        section.blocks.push_back(Paragraph{first->finding.advice, Paragraph::Role::advice});
    }
    std::size_t shown = 0;
    std::size_t left_out = 0;
    for (std::size_t i = 0; i < findings.size(); ++i) {
        if (findings[i].finding.kind != kind) {
            continue;
        }
        if (shown < kMostInFull) {
            section.blocks.push_back(finding_section(findings[i], i + 1, !shares_advice));
            ++shown;
        } else {
            ++left_out;
        }
    }
    if (left_out > 0) {
        section.blocks.push_back(Paragraph{
            fmt::format("And {} more; the reports in CSV and JSON have all of them.", left_out)});
    }
    return section;
}

Section overview(const std::vector<ShownFinding> &findings) {
    Table table{.label = "All findings",
                .columns = {{"No.", true}, {"Severity"}, {"Kind"}, {"Subject"}, {"Values", true}},
                .heading_column = 3,
                .is_sortable = true};
    for (std::size_t i = 0; i < std::min(kMostInOverview, findings.size()); ++i) {
        const Finding &finding = findings[i].finding;
        const auto values = static_cast<double>(finding.rows.size());
        table.rows.push_back({{count_cell(i + 1),
                               severity_cell(finding.kind),
                               {std::string(to_text(finding.kind))},
                               {finding.subject, {}, Emphasis::none, anchor_of(i + 1)},
                               {values > 0 ? fmt::format("{:g}", values) : "", values}}});
    }
    return {"At a glance",
            "",
            {},
            {std::move(table), Paragraph{"Grave: cannot be true. Doubtful: may well be wrong. "
                                         "Minor: the library is thin here.",
                                         Paragraph::Role::small}}};
}

/// "3 findings: replicates 2, drift 1."
std::string counts_of(const std::vector<ShownFinding> &findings) {
    if (findings.empty()) {
        return "No findings.";
    }
    std::string kinds;
    for (const FindingKind kind : kFindingKinds) {
        const auto count =
            std::count_if(findings.begin(), findings.end(),
                          [&](const ShownFinding &one) { return one.finding.kind == kind; });
        if (count > 0) {
            kinds += fmt::format("{}{} {}", kinds.empty() ? "" : ", ", to_text(kind), count);
        }
    }
    return counted(findings.size(), "finding") + ": " + kinds + ".";
}

/// One row a finding.
DataTable data_of(const std::vector<ShownFinding> &findings) {
    DataTable data{{"kind", "severity", "subject", "text", "advice", "values", "suspect_values"}};
    for (const ShownFinding &shown : findings) {
        const Finding &finding = shown.finding;
        const auto suspect = std::count_if(finding.rows.begin(), finding.rows.end(),
                                           [](const FindingRow &row) { return row.is_suspect; });
        data.rows.push_back(
            {std::string(to_text(finding.kind)), std::string(to_text(severity_of(finding.kind))),
             finding.subject, finding.text, finding.advice,
             static_cast<std::int64_t>(finding.rows.size()), static_cast<std::int64_t>(suspect)});
    }
    return data;
}

} // namespace

Document audit_document(const std::vector<ShownFinding> &findings) {
    Document document{.title = "What in the library needs a look",
                      .lead = "Nothing was changed.",
                      .blocks = {Paragraph{counts_of(findings), Paragraph::Role::verdict}},
                      .data = data_of(findings)};
    if (findings.size() > 1) {
        document.blocks.push_back(overview(findings));
    }
    for (const FindingKind kind : kFindingKinds) {
        if (std::any_of(findings.begin(), findings.end(),
                        [&](const ShownFinding &one) { return one.finding.kind == kind; })) {
            document.blocks.push_back(kind_section(kind, findings));
        }
    }
    return document;
}

} // namespace cospot
