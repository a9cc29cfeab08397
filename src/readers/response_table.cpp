#include "readers/response_table.h"

#include "readers/date_column.h"
#include "shared/number.h"
#include "shared/text.h"

namespace cospot {

namespace {

ResponseRow read_response_row(const TableReader &table) {
    constexpr double least = 0.001;
    constexpr double most = 1000.0;
    ResponseRow row;
    row.compound = table.required_text("compound", "a compound of the library");
    row.relative_to = table.required_text("relative_to", "a compound of the library");
    row.system = table.required_text("system", "a system of the library");
    row.factor = table.number("response_factor", "a relative response factor");
    if (!(row.factor >= least && row.factor <= most)) {
        throw InputError(table.where("response_factor"), exact_text(row.factor),
                         "a factor from 0.001 to 1000");
    }
    row.date = read_past_date(table);
    row.source = table.text("source");
    row.note = table.text("note");
    row.compound_where = table.where("compound");
    row.relative_to_where = table.where("relative_to");
    row.system_where = table.where("system");
    return row;
}

} // namespace

std::vector<ResponseRow> read_responses(std::istream &in, const std::string &file,
                                        const std::vector<ColumnAlias> &aliases) {
    TableReader table(in, file,
                      {{"compound", true},
                       {"relative_to", true},
                       {"system", true},
                       {"response_factor", true},
                       {"date", false},
                       {"source", false},
                       {"note", false}},
                      aliases);
    std::vector<ResponseRow> rows;
    for_each_row(table, [&] {
        rows.push_back(read_response_row(table));
        if (equal_ignoring_case(rows.back().compound, rows.back().relative_to)) {
            throw InputError(rows.back().relative_to_where, in_quotes(rows.back().relative_to),
                             "another compound than that of the row");
        }
    });
    return rows;
}

} // namespace cospot
