#pragma once

#include "learn/learn_summary.h"
#include "library/database.h"
#include "readers/column_run_table.h"

#include <vector>

namespace cospot {

/// Stores columns and where bands left them. Throws InputError for a column that the library does
/// not hold and whose size the row does not tell, and for a size that contradicts the stored one.
void learn_column_runs(library::Database &database, const std::vector<ColumnRunRow> &rows,
                       library::ChangeId change, LearnSummary &summary);

} // namespace cospot
