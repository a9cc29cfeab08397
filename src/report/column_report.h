#pragma once

#include "report/report.h"

namespace cospot {

/// A planned column, as a page with the expected run as a picture, and as a table with a row for
/// each compound. Of the objects that column_json returns.
[[nodiscard]] const ReportDrawing &column_report();

} // namespace cospot
