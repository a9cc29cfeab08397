#pragma once

#include "document/json.h"

#include <string>

namespace cospot {

/// The table of all results of `identify`, one row each, as HTML. Rows bear the keys of the marks
/// of the pictures and lead to the details, "#feature-1" and so on.
[[nodiscard]] std::string identify_overview(const Json &results);

} // namespace cospot
