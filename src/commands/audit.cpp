#include "audit/audit.h"
#include "command.h"
#include "command_line.h"
#include "library/systems.h"
#include "open_library.h"
#include "options.h"
#include "output/audit_json.h"
#include "output/audit_text.h"
#include "output/progress.h"
#include "output/style.h"
#include "report/audit_report.h"
#include "report/report.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <ostream>
#include <set>
#include <string>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;

std::string all_kinds() {
    std::string text;
    for (const FindingKind kind : kFindingKinds) {
        text += fmt::format("{}{}", text.empty() ? "" : ", ", to_text(kind));
    }
    return text;
}

std::set<FindingKind> kinds_in(const CommandOptions &options, const char *option) {
    std::set<FindingKind> kinds;
    for (const std::string &text : options.get<std::vector<std::string>>(option)) {
        const auto kind = finding_kind_from_text(text);
        if (!kind) {
            throw InputError(at_option(option), in_quotes(text), all_kinds());
        }
        kinds.insert(*kind);
    }
    return kinds;
}

std::set<FindingKind> chosen_kinds(const CommandOptions &options) {
    std::set<FindingKind> kinds(kFindingKinds.begin(), kFindingKinds.end());
    if (options.has("only")) {
        kinds = kinds_in(options, "only");
    }
    if (options.has("skip")) {
        for (const FindingKind kind : kinds_in(options, "skip")) {
            kinds.erase(kind);
        }
    }
    if (kinds.empty()) {
        throw InputError(at_option("skip"), "no check left to make",
                         "at least one of " + all_kinds());
    }
    return kinds;
}

void print_text(const std::vector<Finding> &findings, library::Database &database,
                std::ostream &out) {
    const Style style = style_for(out);
    for (std::size_t i = 0; i < findings.size(); ++i) {
        if (i == 0 || findings[i].kind != findings[i - 1].kind) {
            out << style.strong(heading_of(findings[i].kind)) << "\n\n";
        }
        out << finding_text(findings[i], database, style) << '\n';
    }
    out << counts_text(findings);
}

} // namespace

int run_audit(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] audit [options]",
        "Looks through the library for what contradicts itself or is thin: replicates\n"
        "that disagree, drift over time, values that cannot be, elution order unlike\n"
        "elsewhere, compounds and systems with few values, structures and names in\n"
        "conflict. Each finding comes with its values (suspect ones marked *) and with\n"
        "what to do. Nothing is changed. The exit code is 1 when there are findings.");
    const std::string only_help = "make only this check, may be given again: " + all_kinds();
    options.add()("only", po::value<std::vector<std::string>>()->value_name("KIND"),
                  only_help.c_str())("skip",
                                     po::value<std::vector<std::string>>()->value_name("KIND"),
                                     "leave this check out, may be given again");
    add_report_option(options);
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    const auto file_of_report = report_file(options);
    const std::set<FindingKind> kinds = chosen_kinds(options);
    library::Database database = open_library(invocation, library::Access::read);
    const std::vector<Finding> findings = [&] {
        Progress progress(invocation.err, "systems", library::all_systems(database).size());
        return audit_library(database, kinds, [&] { progress.advance(1); });
    }();
    Report report;
    if (invocation.json || file_of_report) {
        for (const Finding &finding : findings) {
            report.results.push_back(finding_json(finding, database));
        }
    }
    if (invocation.json) {
        invocation.out << json_lines(report.results);
    } else {
        print_text(findings, database, invocation.out);
    }
    if (file_of_report) {
        report.trace = trace_of("audit", invocation, {});
        write_report(*file_of_report, report, audit_report());
    }
    return findings.empty() ? kDone : kNeedsAttention;
}

} // namespace cospot
