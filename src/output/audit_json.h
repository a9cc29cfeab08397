#pragma once

#include "audit/finding.h"
#include "library/database.h"
#include "output/json.h"

namespace cospot {

/// A finding with how grave it is and with all its rows.
[[nodiscard]] Json finding_json(const Finding &finding, library::Database &database);

} // namespace cospot
