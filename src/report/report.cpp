#include "report/report.h"

#include "document/caution.h"
#include "document/html.h"
#include "document/page_body.h"
#include "report/page.h"
#include "shared/csv.h"
#include "shared/number.h"
#include "shared/text.h"

#include <fstream>

namespace cospot {

namespace {

namespace po = boost::program_options;

std::string csv_cell(const Datum &datum) {
    if (const auto *text = std::get_if<std::string>(&datum)) {
        return csv_field(*text);
    }
    if (const auto *number = std::get_if<double>(&datum)) {
        return exact_text(*number);
    }
    if (const auto *count = std::get_if<std::int64_t>(&datum)) {
        return std::to_string(*count);
    }
    if (const auto *is = std::get_if<bool>(&datum)) {
        return *is ? "true" : "false";
    }
    return {};
}

std::string csv_text(const DataTable &table) {
    std::string text;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        text += (i > 0 ? "," : "") + csv_field(table.columns[i]);
    }
    text += '\n';
    for (const auto &row : table.rows) {
        for (std::size_t i = 0; i < row.size(); ++i) {
            text += (i > 0 ? "," : "") + csv_cell(row[i]);
        }
        text += '\n';
    }
    return text;
}

PageContent page_of(const Document &document) {
    std::string body =
        page_body({List{"", document.warnings, List::Role::warnings}}) + page_body(document.blocks);
    if (!document.notes.empty()) {
        body += page_body({Section{"How this was found", "", {}, {List{"", document.notes}}}});
    }
    for (const std::string &caution : document.cautions) {
        if (caution != kRetentionIsNoProof) { // every page has it below its title
            body += "<p class=\"caution\" role=\"note\">" + html::escaped(caution) + "</p>\n";
        }
    }
    body += signature_lines(document.signers);
    return {document.title, document.lead, std::move(body)};
}

Json json_of(const Report &report) {
    return {
        {"trace", trace_json(report.trace)}, {"notes", report.notes}, {"results", report.results}};
}

bool is_page_of_cospot(const std::filesystem::path &path) {
    std::string head(1024, '\0');
    std::ifstream in(path, std::ios::binary);
    in.read(head.data(), static_cast<std::streamsize>(head.size()));
    return head.find("<meta name=\"generator\" content=\"cospot ") != std::string::npos;
}

/// What is to become of a file at `path`. Only a page that cospot made may be replaced: it holds
/// nothing of the user's own.
library::ExistingFile existing_file(const std::filesystem::path &path,
                                    const CommandOptions &options) {
    std::error_code error;
    const bool is_page = std::filesystem::is_regular_file(path, error) && is_page_of_cospot(path);
    if (is_page && options.has("replace")) {
        return library::ExistingFile::replaced;
    }
    if (is_page) {
        throw bad_option("report", in_quotes(path.string()) + ", which exists",
                         "a new name, or --replace as well for a page in place of that one");
    }
    library::check_name_is_free(path);
    return library::ExistingFile::kept;
}

} // namespace

void add_report_option(CommandOptions &options) {
    options.add()("report", po::value<std::string>()->value_name("FILE"),
                  "new file for a report: a page to look at (.html), a table (.csv) or all there "
                  "is (.json)")("replace", "a page of cospot with that name is replaced");
}

void add_output_option(CommandOptions &options) {
    options.add()("output", po::value<std::string>()->value_name("FILE"),
                  "new file for the table that the other verbs read");
}

void add_sheets_option(CommandOptions &options) {
    options.add()("sheets", "in a page that is printed, a sheet for each sample");
}

bool wants_sheets(const CommandOptions &options) {
    const bool is_wanted = options.has("sheets");
    const auto file = is_wanted ? report_file(options) : std::nullopt;
    if (is_wanted && (!file || file->format != ReportFormat::html)) {
        throw bad_option("sheets", "no page", "--report FILE.html as well");
    }
    return is_wanted;
}

std::optional<ReportFile> report_file(const CommandOptions &options) {
    if (!options.has("report")) {
        return std::nullopt;
    }
    const std::filesystem::path path = options.get<std::string>("report");
    const std::string ending = lower_ascii(path.extension().string());
    ReportFile file{path};
    if (ending == ".csv") {
        file.format = ReportFormat::csv;
    } else if (ending == ".json") {
        file.format = ReportFormat::json;
    } else if (ending != ".html") {
        throw bad_option("report", in_quotes(path.string()),
                         "a file name that ends in .html, .csv or .json");
    }
    file.existing = existing_file(path, options);
    return file;
}

std::string report_text(const Report &report, ReportFormat format, const Document &document) {
    switch (format) {
    case ReportFormat::csv:
        return csv_text(document.data);
    case ReportFormat::json:
        return json_line(json_of(report)) + '\n';
    case ReportFormat::html:
        break;
    }
    return page_html(page_of(document), report.trace, json_of(report));
}

std::string page_part(const Document &document) {
    return page_article(page_of(document));
}

void write_report(const ReportFile &file, const Report &report, const Document &document) {
    library::write_file(file.path, report_text(report, file.format, document), file.existing);
}

void write_table(const std::filesystem::path &file, const Document &document) {
    if (document.data.columns.empty()) {
        throw bad_option("output", "no table to write", "the facts that the notes ask for");
    }
    library::write_file(file, csv_text(document.data));
}

} // namespace cospot
