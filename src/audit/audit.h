#pragma once

#include "audit/finding.h"
#include "library/database.h"

#include <functional>
#include <optional>
#include <set>
#include <vector>

namespace cospot {

/// What an audit is about; the whole library where neither is given.
struct AuditQuestion {
    std::set<FindingKind> kinds;
    std::optional<library::CompoundId> compound; ///< findings with a value or the structure of it
    std::optional<library::SystemId> system;     ///< findings with a value on it
};

/// Runs the chosen checks on the library, which is read system by system, but for those that can
/// have no part in a finding that is asked for. Findings come in the order of kinds, then of
/// systems. `after_system` is called when all values of a quantity on a system were looked at.
[[nodiscard]] std::vector<Finding> audit_library(library::Database &database,
                                                 const AuditQuestion &question,
                                                 const std::function<void()> &after_system);

} // namespace cospot
