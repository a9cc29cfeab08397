#include "learn/learn_document.h"

#include "document/cells.h"

#include <string>

namespace cospot {

namespace {

/// A row of the table; a count that is not kept for its kind is left empty.
Row counted_row(const char *what, std::size_t added, std::optional<std::size_t> known,
                std::optional<std::size_t> corrected = {}) {
    return {{{what}, count_cell(added), count_cell(known), count_cell(corrected)}};
}

Table counts_table(const LearnSummary &summary) {
    Table table{.label = "What was learned",
                .columns = {{""}, {"Added", true}, {"Already there", true}, {"Corrected", true}}};
    table.rows.push_back(counted_row("Values", summary.values_added, summary.values_known,
                                     summary.values_corrected));
    if (summary.responses_added + summary.responses_known > 0) {
        table.rows.push_back(
            counted_row("Response factors", summary.responses_added, summary.responses_known));
    }
    if (summary.bands_added + summary.bands_known > 0) {
        table.rows.push_back(counted_row("Columns", summary.columns_added, {}));
        table.rows.push_back(counted_row("Bands", summary.bands_added, summary.bands_known));
    }
    table.rows.push_back(counted_row("Compounds", summary.compounds_added, {}));
    if (summary.synonyms_added + summary.synonyms_known > 0) {
        table.rows.push_back(
            counted_row("Synonyms", summary.synonyms_added, summary.synonyms_known));
    }
    table.rows.push_back(counted_row("Systems", summary.systems_added, summary.systems_known));
    if (summary.values_corrected == 0) {
        table.columns.pop_back();
        for (Row &row : table.rows) {
            row.cells.pop_back();
        }
    }
    return table;
}

} // namespace

Document learn_document(const LearnSummary &summary, LearnOutcome outcome) {
    Document document{.title = "What was learned"};
    if (outcome == LearnOutcome::dry_run) {
        document.blocks.emplace_back(Paragraph{"Dry run: nothing was stored. It would be:"});
    } else if (outcome == LearnOutcome::held_back) {
        document.blocks.emplace_back(Paragraph{
            "Nothing was stored: mend what is doubtful, or learn it as it is with --accept. It "
            "would be:"});
    }
    document.blocks.emplace_back(counts_table(summary));
    return document;
}

Json learn_json(const LearnSummary &summary, LearnOutcome outcome) {
    return {{"values_added", summary.values_added},
            {"values_known", summary.values_known},
            {"values_corrected", summary.values_corrected},
            {"responses_added", summary.responses_added},
            {"columns_added", summary.columns_added},
            {"bands_added", summary.bands_added},
            {"bands_known", summary.bands_known},
            {"compounds_added", summary.compounds_added},
            {"synonyms_added", summary.synonyms_added},
            {"systems_added", summary.systems_added},
            {"systems_known", summary.systems_known},
            {"rows_refused", summary.rows_refused},
            {"dry_run", outcome == LearnOutcome::dry_run},
            {"stored", outcome == LearnOutcome::stored},
            {"remarks", summary.remarks},
            {"doubts", summary.doubts}};
}

} // namespace cospot
