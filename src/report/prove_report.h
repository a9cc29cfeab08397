#pragma once

#include "report/report.h"

namespace cospot {

/// What `prove` found: the verdict, how often what was called probable was right, as a diagram and
/// as a table.
[[nodiscard]] const ReportDrawing &prove_report();

} // namespace cospot
