#include "report/page.h"

#include "document/caution.h"
#include "document/html.h"
#include "drawing/svg.h"
#include "options/command.h"
#include "options/version.h"
#include "report/checksum.h"
#include "report/page_parts.h"

#include <fmt/format.h>

namespace cospot {

namespace {

using html::escaped;

/// JSON that may stand in a script element: no "</script" and no "<!--" can occur in it.
std::string embedded(const Json &json) {
    std::string text;
    for (const char c : json_line(json)) {
        if (c == '<') {
            text += "\\u003c";
        } else {
            text += c;
        }
    }
    return text;
}

std::string head(const PageContent &content) {
    return fmt::format(
        R"(<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-{}'; img-src data:; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="cospot {}">
<title>{}</title>
<link rel="icon" href="data:,">
<style>
{}</style>
</head>
)",
        sha256_base64(kPageScript), kVersion, escaped(content.title), kPageStyle);
}

std::string sum_html(const std::string &sha256) {
    return sha256.empty() ? std::string("a pipe, which has no checksum")
                          : fmt::format("<span class=\"sum\">SHA-256 {}</span>", sha256);
}

std::string footer(const ReportTrace &trace) {
    const std::string command = "cospot " + command_text(trace.verb, trace.arguments);
    std::string text = "<footer>\n<h2>Where this report comes from</h2>\n<dl>\n";
    const auto entry = [&](std::string_view what, const std::string &html) {
        text += fmt::format("<dt>{}</dt><dd>{}</dd>\n", what, html);
    };
    entry("Written", fmt::format("<time datetime=\"{}\">{} {} UTC</time>", escaped(trace.date_utc),
                                 escaped(trace.date_utc.substr(0, 10)),
                                 escaped(trace.date_utc.substr(11, 5))));
    entry("Program", "cospot " + escaped(trace.version));
    entry("Command", "<code>" + escaped(command) + "</code>");
    const auto file = [&](std::string_view what, const InputTrace &input) {
        entry(what, escaped(input.name) + "<br>" + sum_html(input.sha256));
    };
    if (trace.library) {
        file("Library", *trace.library);
    }
    for (const InputTrace &input : trace.inputs) {
        file("Input", input);
    }
    return text + "</dl>\n</footer>\n";
}

} // namespace

std::string page_article(const PageContent &content) {
    std::string text = fmt::format("<svg width=\"0\" height=\"0\" class=\"defs\" "
                                   "aria-hidden=\"true\"><defs>{}</defs></svg>\n<header>\n",
                                   svg::kHatchPattern);
    text += fmt::format("<h1>{}</h1>\n", escaped(content.title));
    if (!content.lead.empty()) {
        text += fmt::format("<p class=\"lead\">{}</p>\n", escaped(content.lead));
    }
    text += fmt::format("<p class=\"caution\" role=\"note\">{}</p>\n</header>\n",
                        escaped(kRetentionIsNoProof));
    return text + "<main>\n" + content.body + "</main>\n";
}

std::string page_html(const PageContent &content, const ReportTrace &trace, const Json &report) {
    std::string page = head(content) + "<body>\n" + page_article(content) + footer(trace);
    page += "<script type=\"application/json\" id=\"report\">" + embedded(report) + "</script>\n";
    // The very text that the policy in the head names by its checksum.
    page.append("<script>").append(kPageScript).append("</script>\n</body>\n</html>\n");
    return page;
}

} // namespace cospot
