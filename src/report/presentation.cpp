#include "report/presentation.h"

#include "document/terminal.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <ostream>
#include <utility>

namespace cospot {

std::string with_name(const std::string &name, const std::string &note) {
    const std::string_view mark = note.starts_with(kWarningMark) ? kWarningMark : "";
    return fmt::format("{}{}: {}", mark, name, note.substr(mark.size()));
}

Presentation::Presentation(const Invocation &invocation, const CommandOptions &options)
    : invocation_(&invocation), report_file_(report_file(options)),
      table_file_(options.text("output")) {
    if (table_file_) {
        library::check_name_is_free(*table_file_);
    }
}

void Presentation::add(Json result) {
    if (invocation_->json) {
        invocation_->out << json_line(result) << '\n';
    }
    if (report_file_) {
        results_.push_back(std::move(result));
    }
}

void Presentation::finish(const std::vector<std::string> &notes,
                          const std::function<Document()> &make,
                          const std::function<ReportTrace()> &trace, bool with_details) {
    if (invocation_->json) {
        for (const std::string &note : notes) {
            invocation_->err << wrapped(printable(note), 0);
        }
    }
    if (!needs_document()) {
        return;
    }
    Document document = make();
    for (const std::string &note : notes) {
        if (note.starts_with(kWarningMark)) {
            document.warnings.push_back(note.substr(kWarningMark.size()));
        } else {
            document.notes.push_back(note);
        }
    }
    if (invocation_->html) {
        invocation_->out << page_part(document);
    } else if (!invocation_->json) {
        invocation_->out << terminal_text(document, {style_for(invocation_->out), with_details});
    }
    if (table_file_) {
        write_table(*table_file_, document);
        invocation_->err << "Table written to " << printable(table_file_->string()) << '\n';
    }
    if (report_file_) {
        write_report(*report_file_, {trace(), notes, std::move(results_)}, document);
        invocation_->err << "Report written to " << printable(report_file_->path.string()) << '\n';
    }
}

void present(const Invocation &invocation, const CommandOptions &options,
             const std::function<Json()> &make_json, const std::function<Document()> &make) {
    Presentation presentation(invocation, options);
    if (presentation.needs_json()) {
        presentation.add(make_json());
    }
    presentation.finish({}, make);
}

} // namespace cospot
