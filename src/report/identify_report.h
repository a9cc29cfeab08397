#pragma once

#include "report/report.h"

namespace cospot {

/// What `identify` found: plate or chromatogram, all features at a glance, then one by one.
[[nodiscard]] const ReportDrawing &identify_report();

} // namespace cospot
