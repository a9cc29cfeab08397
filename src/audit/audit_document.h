#pragma once

#include "audit/shown_finding.h"
#include "document/document.h"

#include <vector>

namespace cospot {

/// What in the library needs a look: how many findings of which kind, an overview, and each finding
/// with its values and what to do.
[[nodiscard]] Document audit_document(const std::vector<ShownFinding> &findings);

} // namespace cospot
