#include "document/progress.h"
#include "evidence/fitted_system.h"
#include "library/merge.h"
#include "merge/merge_document.h"
#include "options/command.h"
#include "options/open_library.h"
#include "options/options.h"
#include "report/presentation.h"
#include "shared/text.h"
#include "structures/structure_cache.h"

#include <fmt/format.h>

#include <cmath>
#include <ostream>
#include <string>
#include <vector>

namespace cospot {

namespace {

/// Throws InputError where a compound's structure is not the one that its key and masses tell of:
/// it would be found and named by the one, and measured as the other.
void check_structures(const std::vector<library::Compound> &compounds, const std::string &other) {
    constexpr double rounding = 0.01;    // Da
    constexpr std::size_t skeleton = 14; // letters; stereochemistry depends on the InChI version
    std::vector<std::string> smiles;
    for (const library::Compound &compound : compounds) {
        smiles.push_back(compound.smiles);
    }
    StructureCache structures;
    structures.prepare(smiles);
    for (const library::Compound &compound : compounds) {
        const descriptors::Structure &read =
            structures.get(compound.smiles, {other, 0, "compound " + compound.name});
        const bool is_same =
            read.inchikey.substr(0, skeleton) == compound.inchikey.substr(0, skeleton) &&
            read.formula == compound.formula &&
            std::abs(read.monoisotopic_mass - compound.monoisotopic_mass) < rounding &&
            std::abs(read.average_mass - compound.average_mass) < rounding;
        if (!is_same) {
            throw InputError({other, 0, "compound " + compound.name},
                             fmt::format("{}, {}, {:.4f} Da", compound.smiles, compound.inchikey,
                                         compound.monoisotopic_mass),
                             fmt::format("{} of this structure ({}, {:.4f} Da)", read.inchikey,
                                         read.formula, read.monoisotopic_mass));
        }
    }
}

void present_merged(const Invocation &invocation, const CommandOptions &options,
                    const library::MergeSummary &summary) {
    present(
        invocation, options, [&] { return merge_json(summary); },
        [&] { return merge_document(summary); });
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
        {options.has("rename-conflicts"), progress_of_steps(invocation.err, "values"),
         [&](const std::vector<library::Compound> &compounds) {
             check_structures(compounds, other);
         }});
    invocation.has_changed = true;
    present_merged(invocation, options, summary);
    keep_fits(database);
    return summary.findings.empty() ? kDone : kNeedsAttention;
}

} // namespace cospot
