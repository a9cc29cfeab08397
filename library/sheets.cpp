#include "library/sheets.h"

#include "shared/error.h"
#include "shared/text.h"

#include <fmt/format.h>

namespace cospot::library {

void keep_sheet(Database &database, const std::string &sheet,
                const std::vector<ColumnAlias> &columns, ChangeId change) {
    database.cached("DELETE FROM sheet_column WHERE sheet = ?").bind(1, sheet).run();
    for (const ColumnAlias &alias : columns) {
        database
            .cached("INSERT INTO sheet_column (sheet, column, header, change_id) "
                    "VALUES (?, ?, ?, ?)")
            .bind(1, sheet)
            .bind(2, alias.column)
            .bind(3, alias.header)
            .bind(4, change)
            .run();
    }
}

std::vector<ColumnAlias> columns_of_sheet(Database &database, const std::string &sheet) {
    std::vector<ColumnAlias> columns;
    Statement &statement =
        database.cached("SELECT column, header FROM sheet_column WHERE sheet = ? ORDER BY column");
    statement.bind(1, sheet);
    while (statement.step()) {
        columns.push_back({statement.text(0), statement.text(1)});
    }
    statement.reset();
    return columns;
}

std::vector<RememberedSheet> remembered_sheets(Database &database) {
    std::vector<RememberedSheet> sheets;
    Statement query = database.prepare(
        "SELECT s.sheet, s.column, s.header, h.who, h.at_utc, h.detail FROM sheet_column AS s "
        "JOIN change AS h ON h.id = s.change_id ORDER BY s.sheet, s.column, s.header");
    while (query.step()) {
        const std::string name = query.text(0);
        if (sheets.empty() || !equal_ignoring_case(sheets.back().name, name)) {
            sheets.push_back({name, {}, {query.text(3), query.text(4), query.text(5)}});
        }
        sheets.back().columns.push_back({query.text(1), query.text(2)});
    }
    return sheets;
}

bool forget_sheet(Database &database, const std::string &sheet, std::string_view reason) {
    Transaction transaction(database);
    const std::vector<ColumnAlias> columns = columns_of_sheet(database, sheet);
    if (columns.empty()) {
        return false;
    }
    std::string words;
    for (const ColumnAlias &alias : columns) {
        words += fmt::format("{}{}={}", words.empty() ? "" : ", ", alias.column, alias.header);
    }
    (void)begin_change(
        database, "retire",
        fmt::format("{} (columns of the sheet {}: {})", reason, in_quotes(sheet), words));
    database.cached("DELETE FROM sheet_column WHERE sheet = ?").bind(1, sheet).run();
    transaction.commit();
    return true;
}

std::vector<std::string> sheet_names(Database &database) {
    std::vector<std::string> names;
    Statement &statement =
        database.cached("SELECT DISTINCT sheet FROM sheet_column ORDER BY sheet");
    while (statement.step()) {
        names.push_back(statement.text(0));
    }
    statement.reset();
    return names;
}

std::string listed_sheet_names(Database &database) {
    std::string names;
    for (const std::string &name : sheet_names(database)) {
        names += (names.empty() ? ": " : ", ") + in_quotes(name);
    }
    return names;
}

} // namespace cospot::library
