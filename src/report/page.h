#pragma once

#include "document/json.h"
#include "report/report.h"

#include <string>

namespace cospot {

/// A whole page in one file: heading, caution, body, trace, the report as data, style and script.
/// It asks for nothing from outside, and its Content-Security-Policy forbids that it could.
[[nodiscard]] std::string page_html(const PageContent &content, const ReportTrace &trace,
                                    const Json &report);

} // namespace cospot
