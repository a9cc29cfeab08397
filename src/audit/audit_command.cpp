#include "audit/audit.h"
#include "audit/audit_document.h"
#include "audit/audit_json.h"
#include "audit/shown_finding.h"
#include "document/progress.h"
#include "library/names.h"
#include "library/systems.h"
#include "options/command.h"
#include "options/open_library.h"
#include "options/options.h"
#include "report/presentation.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <set>
#include <string>
#include <utility>
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
            throw bad_option(option, in_quotes(text), all_kinds());
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
        throw bad_option("skip", "no check left to make", "at least one of " + all_kinds());
    }
    return kinds;
}

/// Narrows the question to the compound or the system of the call.
void ask_about(library::Database &database, const CommandOptions &options,
               AuditQuestion &question) {
    if (const auto name = options.text("compound")) {
        question.compound = compound_named(database, *name, at_option("compound")).id;
    }
    if (const auto name = options.text("system")) {
        question.system = system_named(database, *name, at_option("system")).id;
    }
}

} // namespace

int run_audit(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] audit [options]",
        "Looks through the library for what contradicts itself or is thin: replicates\n"
        "that disagree, drift over time, values that cannot be, elution order unlike\n"
        "elsewhere, compounds and systems with few values, structures and names in\n"
        "conflict. Each finding comes with its values, suspect ones first, and with what to\n"
        "do. Nothing is changed. The exit code is 1 when there are findings.");
    const std::string only_help = "make only this check, may be given again: " + all_kinds();
    options.add()("only", po::value<std::vector<std::string>>()->value_name("KIND"),
                  only_help.c_str())("skip",
                                     po::value<std::vector<std::string>>()->value_name("KIND"),
                                     "leave this check out, may be given again");
    options.add()("compound", po::value<std::string>()->value_name("NAME"),
                  "findings with a value or the structure of this compound only")(
        "system", po::value<std::string>()->value_name("NAME"),
        "findings with a value on this system only");
    add_report_option(options);
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    AuditQuestion question{.kinds = chosen_kinds(options), .compound = {}, .system = {}};
    if (options.has("compound") && options.has("system")) {
        throw bad_usage("--compound with --system", "one of them");
    }
    Presentation presentation(invocation, options);
    library::Database database = open_library(invocation, library::Access::read);
    ask_about(database, options, question);
    std::vector<ShownFinding> findings;
    {
        Progress progress(invocation.err, "systems", library::all_systems(database).size());
        for (Finding &finding : audit_library(database, question, [&] { progress.advance(1); })) {
            findings.push_back(shown_finding(database, std::move(finding)));
        }
    }
    for (const ShownFinding &shown : findings) {
        presentation.add(finding_json(shown));
    }
    presentation.finish(
        {}, [&] { return audit_document(findings); },
        [&] { return trace_of("audit", invocation, {}); });
    return findings.empty() ? kDone : kNeedsAttention;
}

} // namespace cospot
