#pragma once

#include "shared/table.h"

#include <string>

namespace cospot {

/// The column "date", not after today; empty where nothing is stated. Throws InputError for what is
/// no date.
[[nodiscard]] std::string read_past_date(const TableReader &table);

} // namespace cospot
