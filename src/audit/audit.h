#pragma once

#include "audit/finding.h"
#include "library/database.h"

#include <functional>
#include <set>
#include <vector>

namespace cospot {

/// Runs the chosen checks on the library, which is read system by system. Findings come in the
/// order of kinds, then of systems. `after_system` is called when all values of a quantity on a
/// system were looked at.
[[nodiscard]] std::vector<Finding> audit_library(library::Database &database,
                                                 const std::set<FindingKind> &kinds,
                                                 const std::function<void()> &after_system);

} // namespace cospot
