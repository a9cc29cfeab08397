#include "library/merge.h"
#include "options/command.h"
#include "document/style.h"
#include "evidence/fitted_system.h"
#include "options/open_library.h"
#include "options/options.h"
#include "document/progress.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ostream.h>
#include <nlohmann/json.hpp>

#include <ostream>
#include <string>
#include <vector>

namespace cospot {

namespace {

using library::MergeFinding;
using library::MergeSummary;

constexpr std::size_t kFindingsShown = 20;

void print_finding(const MergeFinding &finding, std::ostream &out) {
    fmt::print(out, "{}\n", fitted(printable(finding.kind + ": " + finding.subject), 80));
    const auto line = [&](const char *name, const std::string &text) {
        std::string block = wrapped(printable(text), 13);
        block.replace(4, std::string_view(name).size(), name);
        out << block;
    };
    line("here", finding.here);
    line("there", finding.there);
    line("outcome", finding.outcome);
}

void print_text(const MergeSummary &summary, const Invocation &invocation) {
    std::ostream &out = invocation.out;
    fmt::print(out, "values:    {} added, {} already there, {} refused\n", summary.values_added,
               summary.values_known, summary.values_refused);
    fmt::print(out, "compounds: {} added, {} already there\n", summary.compounds_added,
               summary.compounds_known);
    fmt::print(out, "names:     {} added to known compounds\n", summary.names_added);
    fmt::print(out, "systems:   {} added ({} renamed), {} already there, {} refused\n",
               summary.systems_added, summary.systems_renamed, summary.systems_known,
               summary.systems_refused);
    if (summary.responses_added > 0) {
        fmt::print(out, "responses: {} added\n", summary.responses_added);
    }
    if (summary.columns_added + summary.bands_added > 0) {
        fmt::print(out, "columns:   {} added, with {} bands\n", summary.columns_added,
                   summary.bands_added);
    }
    for (const std::string &remark : summary.remarks) {
        invocation.err << printable(remark) << '\n';
    }
    if (summary.findings.empty()) {
        return;
    }
    fmt::print(out, "\n{} to look at:\n\n", summary.findings.size());
    for (std::size_t i = 0; i < summary.findings.size(); ++i) {
        if (i == kFindingsShown) {
            fmt::print(out, "... and {} more; --json lists them all\n",
                       summary.findings.size() - kFindingsShown);
            break;
        }
        print_finding(summary.findings[i], out);
    }
}

void print_json(const MergeSummary &summary, std::ostream &out) {
    nlohmann::ordered_json findings = nlohmann::ordered_json::array();
    for (const MergeFinding &finding : summary.findings) {
        findings.push_back({{"kind", finding.kind},
                            {"subject", finding.subject},
                            {"here", finding.here},
                            {"there", finding.there},
                            {"outcome", finding.outcome}});
    }
    const nlohmann::ordered_json json{{"values_added", summary.values_added},
                                      {"values_known", summary.values_known},
                                      {"values_refused", summary.values_refused},
                                      {"responses_added", summary.responses_added},
                                      {"columns_added", summary.columns_added},
                                      {"bands_added", summary.bands_added},
                                      {"compounds_added", summary.compounds_added},
                                      {"compounds_known", summary.compounds_known},
                                      {"names_added", summary.names_added},
                                      {"systems_added", summary.systems_added},
                                      {"systems_renamed", summary.systems_renamed},
                                      {"systems_known", summary.systems_known},
                                      {"systems_refused", summary.systems_refused},
                                      {"findings", findings},
                                      {"remarks", summary.remarks}};
    out << json.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace) << '\n';
}

} // namespace

int run_merge(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] merge OTHER [options]",
        "Takes all that the library OTHER holds into this one, all or nothing; OTHER stays as\n"
        "it is. Compounds are matched by structure, systems by name; values that both hold are\n"
        "stored once. Values on a system that contradicts ours of the same name are refused.\n"
        "Exit code 1 when something was refused or needs a look.");
    options.add()("rename-conflicts",
                  "store such a system as \"NAME (from OTHER)\" instead of refusing its values");
    options.positional("other", 1, "the other library");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    if (!options.has("other")) {
        throw InputError({"command line", 0, ""}, "no file", "the file of the OTHER library");
    }
    const std::string other = options.get<std::vector<std::string>>("other").front();
    library::Database database = open_library(invocation, library::Access::write);
    const MergeSummary summary = library::merge_library(
        database, other,
        {options.has("rename-conflicts"), progress_of_steps(invocation.err, "values")});
    invocation.has_changed = true;
    if (invocation.json) {
        print_json(summary, invocation.out);
    } else {
        print_text(summary, invocation);
    }
    keep_fits(database);
    return summary.findings.empty() ? kDone : kNeedsAttention;
}

} // namespace cospot
