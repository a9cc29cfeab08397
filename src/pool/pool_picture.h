#pragma once

#include "pool/pool_result.h"

#include <string>

namespace cospot {

/// The run of the column as text of at most 80 columns: a cell a fraction, a line a component, in
/// as many blocks as it takes; then what the cells mean. Fractions that nobody looked at are one
/// cell for all that follow each other.
[[nodiscard]] std::string pool_picture(const PoolResult &result);

} // namespace cospot
