#include "evidence/fitted_system.h"
#include "learn/compound_learner.h"
#include "learn/description_learner.h"
#include "library/names.h"
#include "library/near_names.h"
#include "library/proofs.h"
#include "options/command.h"
#include "options/open_library.h"
#include "options/options.h"
#include "readers/measurement_table.h"
#include "rename/rename_document.h"
#include "rename/rename_json.h"
#include "report/presentation.h"
#include "shared/text.h"
#include "structures/structure_service.h"

#include <fmt/format.h>

#include <string>
#include <utility>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;

const Where kAtCommandLine{"command line", 0, ""};

RenameOptions rename_options_of(const CommandOptions &options) {
    const auto names = options.texts("names");
    RenameOptions asked{
        .kind = options.has("system") ? RenameOptions::Kind::system : RenameOptions::Kind::any,
        .wanted = {.name = "",
                   .new_name = "",
                   .reason = std::string(trimmed(options.text("reason").value_or(""))),
                   .where = kAtCommandLine,
                   .new_where = kAtCommandLine},
        .smiles = options.text("smiles")};
    if (names.empty()) {
        throw bad_usage("no name", "the NAME of a compound or a system, then its new name");
    }
    asked.wanted.name = names.front();
    if (names.size() > 1) {
        asked.wanted.new_name = trimmed(names[1]);
        if (asked.wanted.new_name.empty()) {
            throw bad_usage("an empty new name", "a name");
        }
    } else if (!asked.smiles) {
        throw bad_usage("no new name", "NEW_NAME behind NAME, or --smiles SMILES");
    }
    if (asked.smiles && asked.wanted.reason.empty()) {
        throw bad_usage("a new structure without a reason",
                        "--reason TEXT: what readers in ten years should know");
    }
    return asked;
}

library::CorrectedStructure read_structure(const std::string &smiles) {
    const Where where = at_option("smiles");
    try {
        return {compound_of(structure_service().read_smiles(smiles), {}), described(smiles), where};
    } catch (const InputError &error) {
        throw InputError(where, error.found(), error.expected());
    }
}

/// Whether the name is a system's. Throws InputError where it is a compound's too, or nothing's.
bool is_for_system(library::Database &database, const RenameOptions &asked) {
    if (asked.kind == RenameOptions::Kind::system) {
        return true;
    }
    const std::string &name = asked.wanted.name;
    const auto system = library::find_system(database, name);
    const auto compound = compound_if_named(database, name, kAtCommandLine);
    if (system && compound) {
        throw bad_usage(fmt::format("{}, both a system and the compound {}", in_quotes(name),
                                    exact_words(*compound)),
                        "--system for the system, or the InChIKey of the compound");
    }
    if (!system && !compound) {
        throw bad_usage(in_quotes(name), "a compound or a system of the library (cospot list)" +
                                             did_you_mean(database, name, NameOf::any));
    }
    return system.has_value();
}

RenameResult rename_of_system(library::Database &database, const RenameOptions &asked) {
    if (asked.smiles) {
        throw bad_option("smiles", in_quotes(*asked.smiles) + " for a system",
                         "nothing: only a compound has a structure");
    }
    check_visible(asked.wanted.new_name, kAtCommandLine);
    return {library::rename_system(database, asked.wanted), {}};
}

/// What a corrected structure asks of the user.
std::vector<std::string> notes_on(library::Database &database,
                                  const library::RenamedCompound &renamed) {
    std::vector<std::string> notes;
    if (renamed.before.inchikey == renamed.now.inchikey) {
        return notes;
    }
    if (!renamed.now.cas.empty()) {
        notes.push_back(
            fmt::format("The registry number {} stays: check that it belongs to the new "
                        "structure.",
                        renamed.now.cas));
    }
    for (const Technique technique :
         {Technique::tlc, Technique::paper, Technique::column, Technique::hplc, Technique::gc}) {
        const std::string day = library::day_of_proof_before_correction(database, technique);
        if (!day.empty()) {
            notes.push_back(fmt::format("The proof of {} for {} does not count any more: prove the "
                                        "library again (cospot prove).",
                                        day, in_words(technique)));
        }
    }
    return notes;
}

RenameResult rename_of_compound(library::Database &database, const RenameOptions &asked,
                                const std::optional<library::CorrectedStructure> &structure) {
    if (!asked.wanted.new_name.empty()) {
        check_compound_name(asked.wanted.new_name, kAtCommandLine);
    }
    auto renamed = library::rename_compound(database, asked.wanted, structure);
    std::vector<std::string> notes = notes_on(database, renamed);
    return {std::move(renamed), std::move(notes)};
}

} // namespace

int run_rename(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] rename NAME [NEW_NAME] [options]",
        "Gives a compound or a system another name, or a compound another structure where\n"
        "the library's is wrong. Its values stay, the old name still finds it (unless another\n"
        "compound in use has that name), and the old structure stays readable (cospot show\n"
        "NAME).");
    options.add()("system", "NAME is a system, where a compound has that name too")(
        "smiles", po::value<std::string>(), "the right structure of the compound NAME")(
        "reason", po::value<std::string>(), "why; kept in the library, needed for a new structure");
    options.positional("names", 2, "compound or system, and its new name");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    const RenameOptions asked = rename_options_of(options);
    std::optional<library::CorrectedStructure> structure;
    if (asked.smiles) {
        structure = read_structure(*asked.smiles);
    }
    library::Database database = open_library(invocation, library::Access::write);
    const RenameResult result = is_for_system(database, asked)
                                    ? rename_of_system(database, asked)
                                    : rename_of_compound(database, asked, structure);
    invocation.has_changed = true;
    present(
        invocation, options, [&] { return rename_json(result); },
        [&] { return rename_document(result); });
    keep_fits(database);
    return kDone;
}

} // namespace cospot
