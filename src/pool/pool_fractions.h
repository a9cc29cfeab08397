#pragma once

#include "document/json.h"
#include "report/report.h"

#include <string>

namespace cospot {

/// Every fraction of the run (the last object of pool_json) as a table of a page (HTML).
[[nodiscard]] std::string fractions_table(const Json &run);

/// The same as a flat table, of all objects: one row a fraction.
[[nodiscard]] FlatTable pool_flat_table(const Json &results);

} // namespace cospot
