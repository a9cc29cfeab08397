#include "readers/date_column.h"

#include "shared/date.h"

namespace cospot {

std::string read_past_date(const TableReader &table) {
    const std::string_view date = table.text("date");
    return date.empty() ? "" : parse_past_date(date, table.where("date"));
}

} // namespace cospot
