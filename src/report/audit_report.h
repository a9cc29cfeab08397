#pragma once

#include "report/report.h"

namespace cospot {

/// What `audit` found: each finding with how grave it is, its values, and a chart where they are
/// replicates of one compound.
[[nodiscard]] const ReportDrawing &audit_report();

} // namespace cospot
