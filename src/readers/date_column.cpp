#include "readers/date_column.h"

#include "shared/date.h"

namespace cospot {

std::string read_past_date(const TableReader &table) {
    const std::string_view text = table.text("date");
    std::string date;
    if (!text.empty()) {
        table.keep_fault([&] { date = parse_past_date(text, table.where("date")); });
    }
    return date;
}

} // namespace cospot
