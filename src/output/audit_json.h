#pragma once

#include "audit/finding.h"
#include "library/database.h"

#include <string>

namespace cospot {

/// A finding as one JSON object, with all its rows.
[[nodiscard]] std::string finding_json(const Finding &finding, library::Database &database);

} // namespace cospot
