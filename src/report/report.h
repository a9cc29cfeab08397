#pragma once

#include "document/document.h"
#include "document/json.h"
#include "library/partial_file.h"
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

enum class ReportFormat { html, csv, json };

/// The file that the user wants a report in.
struct ReportFile {
    std::filesystem::path path;
    ReportFormat format = ReportFormat::html;
    library::ExistingFile existing = library::ExistingFile::kept;
};

/// Adds --report and --replace.
void add_report_option(CommandOptions &options);

/// Adds --output, of verbs whose table others read.
void add_output_option(CommandOptions &options);

/// Adds --sheets, for verbs that judge several samples.
void add_sheets_option(CommandOptions &options);

/// Whether each sample is to be printed on a sheet of its own. Throws InputError where no page is
/// asked for.
[[nodiscard]] bool wants_sheets(const CommandOptions &options);

/// The report asked for, if any. Call it before any work is done: throws InputError for another
/// ending than .html, .csv or .json, a file that exists (but a page of cospot with --replace), and
/// a folder that does not.
[[nodiscard]] std::optional<ReportFile> report_file(const CommandOptions &options);

/// The content of a report in one of the formats. Loads RDKit where a page shows structures.
[[nodiscard]] std::string report_text(const Report &report, ReportFormat format,
                                      const Document &document);

/// The document as a part of a page: heading, caution, body. For pages that have the looks of
/// page_looks.h. Loads RDKit where it shows structures.
[[nodiscard]] std::string page_part(const Document &document);

/// Writes the report; a failure leaves no file behind. Throws DatabaseError or InputError where it
/// cannot be written.
void write_report(const ReportFile &file, const Report &report, const Document &document);

/// Writes the document's table as CSV to a new file. Throws InputError where it has none, and as
/// `write_report` does.
void write_table(const std::filesystem::path &file, const Document &document);

} // namespace cospot
