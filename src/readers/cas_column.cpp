#include "readers/cas_column.h"

#include "shared/registry_number.h"

namespace cospot {

std::string read_registry_number(const TableReader &table) {
    std::string number(table.text("cas"));
    if (!number.empty()) {
        table.keep_fault([&] { check_registry_number(number, table.where("cas")); });
    }
    return number;
}

} // namespace cospot
