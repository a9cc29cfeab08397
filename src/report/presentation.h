#pragma once

#include "document/document.h"
#include "document/json.h"
#include "options/command.h"
#include "options/options.h"
#include "report/report.h"

#include <functional>
#include <initializer_list>
#include <istream>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// Before a note that needs a look.
inline constexpr std::string_view kWarningMark = "! ";

/// The note with the name of what it is about before it, behind the mark of a warning.
[[nodiscard]] std::string with_name(const std::string &name, const std::string &note);

/// What one call of a verb found, on its way to whoever asked: as a document on the terminal, as
/// JSON Lines (--json), and as a report (--report). Every verb presents its results through it.
class Presentation {
public:
    /// Reads --report and, where the verb has it, --output. Throws InputError as `report_file`
    /// does, and where the file of --output exists.
    Presentation(const Invocation &invocation, const CommandOptions &options);

    /// Whether results are wanted as JSON: for --json or a report.
    [[nodiscard]] bool needs_json() const { return invocation_->json || report_file_; }
    /// Whether a document is wanted: for the terminal, or for a report.
    [[nodiscard]] bool needs_document() const {
        return !invocation_->json || report_file_ || table_file_;
    }
    [[nodiscard]] bool has_report() const { return report_file_.has_value(); }

    /// Takes a result; --json prints it at once.
    void add(Json result);

    /// Prints the document, or with --json its notes as messages; writes the report. Call it last:
    /// a report names the library's checksum, for which the file is closed (see `trace_of`).
    /// `make` is called where a document is wanted, `trace` for a report. A note that begins with
    /// kWarningMark is a warning.
    void finish(const std::vector<std::string> &notes, const std::function<Document()> &make,
                const std::function<ReportTrace()> &trace = {}, bool with_details = false);

private:
    const Invocation *invocation_;
    std::optional<ReportFile> report_file_;
    std::optional<std::filesystem::path> table_file_; ///< for the document's table
    Json results_ = Json::array();
};

/// Presents the one result of a verb that has no notes, as a document or with --json as an object.
void present(const Invocation &invocation, const CommandOptions &options,
             const std::function<Json()> &make_json, const std::function<Document()> &make);

} // namespace cospot
