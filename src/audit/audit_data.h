#pragma once

#include "audit/audited_system.h"
#include "audit/identity_conflicts.h"
#include "library/database.h"

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// Calls `visit` for each system and quantity that the library holds values of, by the name of the
/// system. Only values that hold are read (neither superseded nor retired, their system neither),
/// one system at a time.
void for_each_audited_system(library::Database &database,
                             const std::function<void(const AuditedSystem &)> &visit);

/// The structures that have a value that holds, in the order of their ids.
[[nodiscard]] std::vector<AuditedStructure> audited_structures(library::Database &database);

} // namespace cospot
