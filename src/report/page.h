#pragma once

#include "document/json.h"
#include "report/trace.h"

#include <string>

namespace cospot {

/// The heading of a page, and its HTML between heading and trace.
struct PageContent {
    std::string title; ///< plain text
    std::string lead;  ///< plain text, one sentence; may be empty
    std::string body;  ///< HTML
};

/// Heading, caution and body.
[[nodiscard]] std::string page_article(const PageContent &content);

/// A whole page in one file: heading, caution, body, trace, the report as data, style and script.
/// It asks for nothing from outside, and its Content-Security-Policy forbids that it could.
[[nodiscard]] std::string page_html(const PageContent &content, const ReportTrace &trace,
                                    const Json &report);

} // namespace cospot
