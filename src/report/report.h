#pragma once

#include "document/document.h"
#include "document/json.h"
#include "options/options.h"
#include "report/trace.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// What a command found, as `--json` prints it, and where it comes from.
struct Report {
    ReportTrace trace;
    std::vector<std::string> notes; ///< what holds for all results
    Json results = Json::array();   ///< one object a result
};

/// A flat table. Cells are texts, numbers, true, false, or null where there is nothing.
struct FlatTable {
    std::vector<std::string> columns;
    std::vector<std::vector<Json>> rows;
};

/// The heading of a page, and its HTML between heading and trace.
struct PageContent {
    std::string title; ///< plain text
    std::string lead;  ///< plain text, one sentence; may be empty
    std::string body;  ///< HTML
};

/// How the reports of one verb look; each verb has a file of its own (identify_report.h, ...).
struct ReportDrawing {
    PageContent (*page)(const Report &report);
    FlatTable (*table)(const Json &results);
};

enum class ReportFormat { html, csv, json };

/// The file that the user wants a report in.
struct ReportFile {
    std::filesystem::path path;
    ReportFormat format = ReportFormat::html;
};

/// Adds --report.
void add_report_option(CommandOptions &options);

/// The report asked for, if any. Call it before any work is done: throws InputError for another
/// ending than .html, .csv or .json, a file that exists, and a folder that does not.
[[nodiscard]] std::optional<ReportFile> report_file(const CommandOptions &options);

/// The content of a report in one of the formats. Loads RDKit where a page shows structures.
[[nodiscard]] std::string report_text(const Report &report, ReportFormat format,
                                      const ReportDrawing &drawing);

/// The same, of a document.
[[nodiscard]] std::string report_text(const Report &report, ReportFormat format,
                                      const Document &document);

/// Writes the report; a failure leaves no file behind. Throws DatabaseError or InputError where it
/// cannot be written.
void write_report(const ReportFile &file, const Report &report, const ReportDrawing &drawing);
void write_report(const ReportFile &file, const Report &report, const Document &document);

} // namespace cospot
