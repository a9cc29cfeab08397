#include "merge/merge_document.h"

#include "document/cells.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <string>
#include <utility>

namespace cospot {

namespace {

using library::MergeFinding;
using library::MergeSummary;

Table counts_table(const MergeSummary &summary) {
    Table table{.label = "What was taken over",
                .columns = {{""}, {"Added", true}, {"Already there", true}, {"Refused", true}}};
    const auto add = [&](const char *what, std::size_t added, std::optional<std::size_t> known,
                         std::optional<std::size_t> refused) {
        table.rows.push_back({{{what}, count_cell(added), count_cell(known), count_cell(refused)}});
    };
    add("Values", summary.values_added, summary.values_known, summary.values_refused);
    add("Compounds", summary.compounds_added, summary.compounds_known, {});
    add("Further names of compounds", summary.names_added, {}, {});
    add("Systems", summary.systems_added, summary.systems_known, summary.systems_refused);
    if (summary.responses_added > 0) {
        add("Response factors", summary.responses_added, {}, {});
    }
    if (summary.columns_added + summary.bands_added > 0) {
        add("Columns", summary.columns_added, {}, {});
        add("Bands", summary.bands_added, {}, {});
    }
    return table;
}

/// One finding a row; what each library says, and what was done, stand below.
Table findings_table(const std::vector<MergeFinding> &findings) {
    constexpr std::size_t shown = 20;
    Table table{.label = "What the two libraries say differently",
                .columns = {{"What"}, {"Which"}},
                .heading_column = 1,
                .max_rows = shown};
    for (const MergeFinding &finding : findings) {
        table.rows.push_back(
            {{{finding.kind}, {finding.subject}},
             {"here: " + finding.here, "there: " + finding.there, "done: " + finding.outcome}});
    }
    return table;
}

} // namespace

Document merge_document(const MergeSummary &summary) {
    Document document{.title = "What was taken over"};
    document.blocks.emplace_back(counts_table(summary));
    if (summary.systems_renamed > 0) {
        document.blocks.emplace_back(
            Paragraph{counted(summary.systems_renamed, "system") + " stored under a new name."});
    }
    if (!summary.findings.empty()) {
        Section section{counted(summary.findings.size(), "difference") + " to look at", "", {}, {}};
        section.blocks.emplace_back(findings_table(summary.findings));
        document.blocks.emplace_back(std::move(section));
    }
    return document;
}

Json merge_json(const MergeSummary &summary) {
    Json findings = Json::array();
    for (const MergeFinding &finding : summary.findings) {
        findings.push_back({{"kind", finding.kind},
                            {"subject", finding.subject},
                            {"here", finding.here},
                            {"there", finding.there},
                            {"outcome", finding.outcome}});
    }
    return {{"values_added", summary.values_added},
            {"values_known", summary.values_known},
            {"values_refused", summary.values_refused},
            {"responses_added", summary.responses_added},
            {"columns_added", summary.columns_added},
            {"bands_added", summary.bands_added},
            {"compounds_added", summary.compounds_added},
            {"compounds_known", summary.compounds_known},
            {"names_added", summary.names_added},
            {"systems_added", summary.systems_added},
            {"systems_renamed", summary.systems_renamed},
            {"systems_known", summary.systems_known},
            {"systems_refused", summary.systems_refused},
            {"findings", findings},
            {"remarks", summary.remarks}};
}

} // namespace cospot
