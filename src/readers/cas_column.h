#pragma once

#include "shared/table.h"

#include <string>

namespace cospot {

/// The registry number in the column cas; empty where none is stated. One that is none is a fault
/// of the row.
[[nodiscard]] std::string read_registry_number(const TableReader &table);

} // namespace cospot
