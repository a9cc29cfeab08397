#pragma once

#include "learn/learn_summary.h"
#include "library/database.h"
#include "readers/systems_table.h"

#include <vector>

namespace cospot {

/// Adds the systems that the library does not hold, and fills in what a held one left unstated.
/// Throws InputError where a row contradicts what the library says about its system: other
/// conditions are another system.
void learn_systems(library::Database &database, const std::vector<SystemRow> &rows,
                   library::ChangeId change, LearnSummary &summary);

} // namespace cospot
