#pragma once

#include "report/report.h"

namespace cospot {

/// Which fractions to combine, as a page with the run of the column as a picture, and as a table
/// with a row for each fraction. Of the objects that pool_json returns.
[[nodiscard]] const ReportDrawing &pool_report();

} // namespace cospot
