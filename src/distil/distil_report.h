#pragma once

#include "report/report.h"

namespace cospot {

/// A simulated distillation, an order by boiling point, or both, as a page. The table has a row for
/// each peak; of an order alone, for each compound. Of the objects that distilled_sample_json and
/// volatility_order_json return.
[[nodiscard]] const ReportDrawing &distil_report();

} // namespace cospot
