#pragma once

#include "library/database.h"

#include <vector>

namespace cospot::library {

/// A member of the ladder that fixed the index scale of a run.
struct LadderMember {
    double carbon = 0.0;
    double retention_time_min = 0.0;
};

/// Keeps the ladder of a run; a ladder that the run has already stays.
void store_ladder(Database &database, RunId run, const std::vector<LadderMember> &ladder);

/// The ladder of a run in the order of carbon numbers; empty where none was kept.
[[nodiscard]] std::vector<LadderMember> ladder_of_run(Database &database, RunId run);

} // namespace cospot::library
