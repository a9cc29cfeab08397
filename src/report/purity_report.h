#pragma once

#include "report/report.h"

namespace cospot {

/// What `purity` found: for each sample the verdict, its picture, every feature and every rule;
/// then small charts over the samples.
[[nodiscard]] const ReportDrawing &purity_report();

} // namespace cospot
