#pragma once

#include "document/style.h"
#include "pool/pool_result.h"

#include <string>

namespace cospot {

/// The advice for reading, at most 80 columns wide: picture of the run, components with what to
/// combine, what to keep apart, what was not seen, warnings, and what all of it rests on.
[[nodiscard]] std::string pool_text(const PoolResult &result, const Style &style);

} // namespace cospot
