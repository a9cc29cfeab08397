#include "document/progress.h"
#include "evidence/fitted_system.h"
#include "library/merge.h"
#include "merge/merge_document.h"
#include "options/command.h"
#include "options/open_library.h"
#include "options/options.h"
#include "report/presentation.h"
#include "shared/text.h"

#include <ostream>
#include <string>
#include <vector>

namespace cospot {

namespace {

void present(const Invocation &invocation, const CommandOptions &options,
             const library::MergeSummary &summary) {
    Presentation presentation(invocation, options);
    if (presentation.needs_json()) {
        presentation.add(merge_json(summary));
    }
    presentation.finish({}, [&] { return merge_document(summary); });
    if (!invocation.json) {
        for (const std::string &remark : summary.remarks) {
            invocation.err << printable(remark) << '\n';
        }
    }
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
        throw bad_usage("no file", "the file of the OTHER library");
    }
    const std::string other = options.get<std::vector<std::string>>("other").front();
    library::Database database = open_library(invocation, library::Access::write);
    const library::MergeSummary summary = library::merge_library(
        database, other,
        {options.has("rename-conflicts"), progress_of_steps(invocation.err, "values")});
    invocation.has_changed = true;
    present(invocation, options, summary);
    keep_fits(database);
    return summary.findings.empty() ? kDone : kNeedsAttention;
}

} // namespace cospot
