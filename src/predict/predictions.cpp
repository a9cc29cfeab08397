#include "predict/predictions.h"

#include "document/progress.h"
#include "expectation/asked_compounds.h"
#include "library/compounds.h"
#include "library/names.h"
#include "library/near_names.h"
#include "library/retire.h"
#include "options/open_library.h"
#include "options/options.h"
#include "readers/input_file.h"
#include "report/presentation.h"
#include "shared/eluent.h"
#include "shared/text.h"

#include <fmt/format.h>

namespace cospot {

namespace {

/// The structure of a SMILES; where it cannot be read it may be a name with a slip.
AskedCompound structure_or_near_names(const std::string &target, const Where &where,
                                      library::Database &database) {
    try {
        return asked_by_structure(target, target, where, database);
    } catch (const InputError &error) {
        throw InputError(error.where(), error.found(),
                         error.expected() + did_you_mean(database, target, NameOf::compound));
    }
}

/// A target is a file, a compound of the library, or SMILES; the first that fits.
std::vector<AskedCompound> asked_compounds(const std::vector<std::string> &targets,
                                           library::Database &database,
                                           std::istream &standard_input) {
    std::vector<AskedCompound> asked;
    for (const std::string &target : targets) {
        if (is_input(target)) {
            InputFile file(target, standard_input);
            const auto in_file = asked_in_file(file, database);
            asked.insert(asked.end(), in_file.begin(), in_file.end());
            continue;
        }
        const Where where{"command line", 0, ""};
        const auto named = compound_if_named(database, target, where);
        asked.push_back(named
                            ? AskedCompound{named->name, named->smiles, named->inchikey, named->id}
                            : structure_or_near_names(target, where, database));
    }
    return asked;
}

std::vector<library::System> asked_systems(const std::vector<std::string> &names,
                                           library::Database &database) {
    if (names.empty()) {
        return library::all_systems(database);
    }
    std::vector<library::System> systems;
    for (const std::string &name : names) {
        systems.push_back(system_named(database, name, at_option("system")));
    }
    return systems;
}

/// Names of solvents in eluents of asked systems that are compared as they are written.
void note_unknown_solvents(const library::System &system, std::vector<std::string> &notes) {
    if (system.mobile_phase.empty() || !can_show(system.technique, Quantity::Rf)) {
        return;
    }
    for (const std::string &solvent : unknown_solvents(parse_eluent(system.mobile_phase, {}))) {
        notes.push_back(
            fmt::format("{}: {} in its mobile phase is not understood as a solvent, and "
                        "is compared by this name alone",
                        system.name, in_quotes(solvent)));
    }
}

} // namespace

Predictions predictions(const PredictOptions &options, const Invocation &invocation,
                        std::istream &standard_input) {
    library::Database database = open_library(invocation, library::Access::read);
    Predictions result;
    result.with_retention = options.with_retention;
    if (options.with_retention) {
        result.systems = asked_systems(options.systems, database);
    }
    if (!options.systems.empty()) {
        for (const library::System &system : result.systems) {
            note_unknown_solvents(system, result.notes);
        }
    }
    const auto asked = asked_compounds(options.targets, database, standard_input);
    for (const AskedCompound &compound : asked) {
        const auto retired =
            compound.id ? library::retirement_of_compound(database, *compound.id) : std::nullopt;
        if (retired) {
            result.notes.push_back(fmt::format("{}{} is no candidate: retired at {}, {}: {}",
                                               kWarningMark, compound.name, retired->at_utc,
                                               retired->who, retired->detail));
        }
        result.profiles.push_back(profile_of(compound));
    }
    if (!options.with_retention) {
        return result;
    }
    RetentionModels models(database);
    auto retention = expected_retention(models, asked, result.systems,
                                        progress_of_steps(invocation.err, "structures"));
    for (std::size_t i = 0; i < retention.size(); ++i) {
        result.profiles[i].retention = std::move(retention[i]);
    }
    if (options.keeps_models) {
        models.keep();
    }
    return result;
}

} // namespace cospot
