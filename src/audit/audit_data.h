#pragma once

#include "audit/audited_system.h"
#include "audit/identity_conflicts.h"
#include "library/database.h"

#include <cstdint>
#include <optional>
#include <set>
#include <vector>

namespace cospot {

/// Each system and quantity that the library holds values of, by the name of the system, still
/// without its values. Only values that hold count (neither superseded nor retired, their system
/// neither).
[[nodiscard]] std::vector<AuditedSystem> audited_systems(library::Database &database);

/// Reads the values that hold of such a system, or of one compound on it.
void read_values(library::Database &database, AuditedSystem &system,
                 std::optional<library::CompoundId> only = {});

/// Whether the compound is among the first ones on the system, by their ids.
[[nodiscard]] bool is_among_first(library::Database &database, const AuditedSystem &system,
                                  library::CompoundId compound, std::size_t first);

/// How many values of the compound hold on the system.
[[nodiscard]] std::int64_t values_of_compound(library::Database &database,
                                              const AuditedSystem &system,
                                              library::CompoundId compound);

/// The systems on which the compound has a value that holds.
[[nodiscard]] std::set<library::SystemId> systems_of_compound(library::Database &database,
                                                              library::CompoundId compound);

/// Whether the compound has a value that holds on another system.
[[nodiscard]] bool is_on_another_system(library::Database &database, library::CompoundId compound,
                                        library::SystemId system);

/// The structures that have a value that holds, in the order of their ids: all, or `subject` and
/// those that share a name, the registry number or the skeleton with it.
[[nodiscard]] std::vector<AuditedStructure>
audited_structures(library::Database &database, std::optional<library::CompoundId> subject);

} // namespace cospot
