#include "library/sheets.h"

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

} // namespace cospot::library
