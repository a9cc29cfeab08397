#pragma once

#include "report/report.h"

namespace cospot {

/// What `predict` says: each structure with what it is and what to expect on each system.
[[nodiscard]] const ReportDrawing &predict_report();

} // namespace cospot
