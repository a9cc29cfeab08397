#include "history/history_document.h"

#include "history/history_words.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <string>
#include <utility>

namespace cospot {

namespace {

Row row_of(const library::HistoryEntry &entry) {
    Row row{{{entry.change.at_utc}, {entry.change.who}, {entry.action}}};
    for (const std::string &note : {what_words(entry), changed_words(entry), entry.change.detail,
                                    "Command: " + command_words(entry)}) {
        if (!note.empty()) {
            row.notes.push_back(note);
        }
    }
    return row;
}

/// "3 changes of vanillin.", "The newest 50 of 120 changes of the library."
std::string history_verdict(const HistoryResult &result) {
    const auto &[entries, more] = result.history;
    if (entries.empty()) {
        return "No change of " + result.subject + '.';
    }
    const std::size_t all = entries.size() + more;
    const std::string changes = counted(all, "change") + " of " + result.subject + '.';
    return more == 0 ? changes
                     : fmt::format("The newest {} of {} {} more: --top {} lists all.",
                                   entries.size(), changes, more, all);
}

DataTable history_data(const library::History &history) {
    DataTable data{{"change", "at", "who", "verb", "command", "detail", "values", "corrected",
                    "withdrawn", "compounds", "names", "structures", "systems", "responses",
                    "bands", "proofs"}};
    for (const library::HistoryEntry &entry : history.entries) {
        data.rows.push_back({library::as_number(entry.id), entry.change.at_utc, entry.change.who,
                             entry.action, entry.command, entry.change.detail, entry.values,
                             entry.corrected, entry.withdrawn, entry.compounds, entry.names,
                             entry.structures, entry.systems, entry.responses, entry.bands,
                             entry.proofs});
    }
    return data;
}

} // namespace

Document history_document(const HistoryResult &result) {
    Table table{
        .label = "Changes", .columns = {{"When (UTC)"}, {"Who"}, {"Verb"}}, .heading_column = 0};
    for (const library::HistoryEntry &entry : result.history.entries) {
        table.rows.push_back(row_of(entry));
    }
    Document document{.title = "History of " + result.subject,
                      .blocks = {Paragraph{history_verdict(result), Paragraph::Role::verdict}},
                      .data = history_data(result.history)};
    if (!table.rows.empty()) {
        document.blocks.emplace_back(std::move(table));
    }
    return document;
}

} // namespace cospot
