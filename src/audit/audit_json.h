#pragma once

#include "audit/shown_finding.h"
#include "document/json.h"

namespace cospot {

/// A finding with how grave it is and with all its values.
[[nodiscard]] Json finding_json(const ShownFinding &shown);

} // namespace cospot
