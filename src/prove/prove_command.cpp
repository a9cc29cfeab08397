#include "document/progress.h"
#include "document/style.h"
#include "options/command.h"
#include "options/open_library.h"
#include "options/options.h"
#include "prove/library_proofs.h"
#include "prove/proof_words.h"
#include "prove/prove_document.h"
#include "prove/prove_json.h"
#include "report/presentation.h"

#include <algorithm>
#include <memory>
#include <ostream>
#include <vector>

namespace cospot {

namespace {

LibraryProofs prove_all(const Invocation &invocation) {
    library::Database database = open_library(invocation, library::Access::read);
    std::unique_ptr<Progress> progress;
    return prove_library(
        database,
        [&](std::size_t steps) {
            progress = std::make_unique<Progress>(invocation.err, "parts", steps);
        },
        [&] { progress->advance(1); });
}

/// Throws what storing would throw where the library may not be written: before all the work.
void check_writable(const Invocation &invocation) {
    library::Database database = open_library(invocation, library::Access::write);
    const library::Transaction undone(database);
    // The journal is made with the first change.
    static_cast<void>(library::begin_change(database, "prove", ""));
}

void store(const Invocation &invocation, const std::vector<ProvedQuestion> &proofs) {
    library::Database database = open_library(invocation, library::Access::write);
    store_proofs(database, proofs);
    invocation.has_changed = true;
    const bool any_corrected =
        std::any_of(proofs.begin(), proofs.end(),
                    [](const ProvedQuestion &proof) { return proof.result.is_corrected; });
    invocation.err << wrapped(
        any_corrected ? "stored: identify corrects its probabilities by this from now on"
                      : "stored: identify says from now on that its probabilities were "
                        "proved and need no correction",
        0);
}

/// What the document says and JSON has no field for.
void say_untried(const LibraryProofs &proofs, std::ostream &err) {
    if (proofs.proved.empty()) {
        err << wrapped(nothing_to_prove(), 0);
    }
    for (const UntriedQuestion &one : proofs.untried) {
        err << wrapped("Not tried: " + untried_sentence(one), 0);
    }
}

} // namespace

int run_prove(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] prove [options]",
        "Asks the library for its own values and says how often what it calls probable is right:\n"
        "whole runs are left out, whole days, most compounds of a system, and compounds\n"
        "altogether, with a verdict on each. A correction that does better on values that it was\n"
        "not learned from is stored with its date, and used by identify for features that ask\n"
        "the same. Exit code 1 if it is too sure.");
    options.add()("dry-run", "store nothing");
    add_report_option(options);
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    Presentation presentation(invocation, options);
    if (!options.has("dry-run")) {
        check_writable(invocation);
    }
    const LibraryProofs proofs = prove_all(invocation);
    for (const ProvedQuestion &proof : proofs.proved) {
        presentation.add(prove_json(proof));
    }
    // The trace is of the library before the correction is stored.
    presentation.finish(
        {}, [&] { return prove_document(proofs); },
        [&] { return trace_of("prove", invocation, {}); });
    if (!proofs.proved.empty() && !options.has("dry-run")) {
        store(invocation, proofs.proved);
    }
    if (invocation.json) {
        say_untried(proofs, invocation.err);
    }
    const bool too_sure =
        std::any_of(proofs.proved.begin(), proofs.proved.end(),
                    [](const ProvedQuestion &proof) { return is_any_too_sure(proof.result); });
    return too_sure || proofs.proved.empty() ? kNeedsAttention : kDone;
}

} // namespace cospot
