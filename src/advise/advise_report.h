#pragma once

#include "report/report.h"

namespace cospot {

/// What to measure next, as a page with small bars, and as a table with a row for each measurement;
/// for a set of compounds a row for each set of systems. Of the objects of advise_json.h.
[[nodiscard]] const ReportDrawing &advise_report();

} // namespace cospot
