#pragma once

#include "drawing/resolution_map_picture.h"
#include "report/report.h"

namespace cospot {

/// A resolution map, as a page and as a table with a row for each compound. Of the object that
/// resolve_json returns.
[[nodiscard]] const ReportDrawing &resolve_report();

/// The map of that object, to be drawn. Of two compounds or more.
[[nodiscard]] DrawnMap drawn_map(const Json &answer);

} // namespace cospot
