#pragma once

#include "shared/quantity.h"
#include "shared/table.h"

namespace cospot {

/// The quantity that the row names in its column "quantity". Throws InputError for anything else
/// than Rf, k, RI, tR, RRT and r.
[[nodiscard]] Quantity read_quantity(const TableReader &table);

} // namespace cospot
