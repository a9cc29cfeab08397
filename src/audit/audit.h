#pragma once

#include "audit/finding.h"
#include "library/database.h"

#include <set>
#include <vector>

namespace cospot {

/// Runs the chosen checks on the library, which is read system by system. Findings come in the
/// order of kinds, then of systems.
[[nodiscard]] std::vector<Finding> audit_library(library::Database &database,
                                                 const std::set<FindingKind> &kinds);

} // namespace cospot
