#pragma once

#include "shared/quantity.h"
#include "shared/table.h"

namespace cospot {

/// The quantity that the row names in its column "quantity". Anything else than Rf, k, RI, tR,
/// RRT and r is a fault of the row.
[[nodiscard]] Quantity read_quantity(const TableReader &table);

} // namespace cospot
