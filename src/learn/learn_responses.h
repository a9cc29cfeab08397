#pragma once

#include "learn/learn_summary.h"
#include "library/database.h"
#include "readers/response_table.h"

#include <vector>

namespace cospot {

/// Stores relative response factors. Throws InputError for a compound or system that the library
/// does not hold, and for a name that stands for several structures.
void learn_responses(library::Database &database, const std::vector<ResponseRow> &rows,
                     library::ChangeId change, LearnSummary &summary);

} // namespace cospot
