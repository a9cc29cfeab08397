#include "options/command.h"
#include "document/caution.h"
#include "document/style.h"
#include "expectation/asked_compounds.h"
#include "expectation/compound_profile.h"
#include "expectation/expected_retention.h"
#include "library/compounds.h"
#include "library/systems.h"
#include "library/names.h"
#include "options/open_library.h"
#include "options/options.h"
#include "predict/predict_json.h"
#include "predict/predict_text.h"
#include "document/progress.h"
#include "readers/input_file.h"
#include "predict/predict_report.h"
#include "report/report.h"
#include "shared/error.h"
#include "shared/text.h"

#include <ostream>
#include <string>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;

using Texts = std::vector<std::string>;

/// A target is a file, a compound of the library, or SMILES; the first that fits.
std::vector<AskedCompound> asked_compounds(const Texts &targets, library::Database &database,
                                           std::istream &standard_input) {
    std::vector<AskedCompound> asked;
    for (const std::string &target : targets) {
        if (is_input(target)) {
            InputFile file(target, standard_input);
            const auto in_file = asked_in_file(file, database);
            asked.insert(asked.end(), in_file.begin(), in_file.end());
            continue;
        }
        const auto named = library::find_by_name(database, target);
        for (const library::Compound &compound : named) {
            asked.push_back({compound.name, compound.smiles, compound.inchikey, compound.id});
        }
        if (named.empty()) {
            asked.push_back(asked_by_structure(target, target, {"command line", 0, ""}, database));
        }
    }
    return asked;
}

std::vector<library::System> asked_systems(const CommandOptions &options,
                                           library::Database &database) {
    if (!options.has("system")) {
        return library::all_systems(database);
    }
    std::vector<library::System> systems;
    for (const std::string &name : options.get<Texts>("system")) {
        systems.push_back(system_named(database, name, at_option("system")));
    }
    return systems;
}

std::vector<CompoundProfile> profiles_of(const std::vector<AskedCompound> &asked,
                                         const std::vector<library::System> &systems,
                                         RetentionModels &models, std::ostream &err) {
    std::vector<CompoundProfile> profiles;
    profiles.reserve(asked.size());
    for (const AskedCompound &compound : asked) {
        profiles.push_back(profile_of(compound));
    }
    const auto retention =
        expected_retention(models, asked, systems, progress_of_steps(err, "structures"));
    for (std::size_t i = 0; i < profiles.size(); ++i) {
        profiles[i].retention = retention[i];
    }
    return profiles;
}

} // namespace

int run_predict(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] predict TARGET... [options]",
        "Describes structures and says what retention to expect of them on the library's\n"
        "systems: from their own values there, from their values on other systems, or from\n"
        "structure, with the interval that holds nine of ten new values.\n"
        "TARGET is a SMILES, a compound of the library, or a file (.smi, or a table with the\n"
        "columns compound,smiles).");
    options.add()("system", po::value<Texts>(), "this system only (may be repeated)");
    add_report_option(options);
    options.positional("target", -1, "structures");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    if (!options.has("target")) {
        throw InputError({"command line", 0, ""}, "no target",
                         "a SMILES, a compound of the library, or a file");
    }
    const auto file_of_report = report_file(options);
    library::Database database = open_library(invocation, library::Access::read);
    TracedInputs inputs(file_of_report ? input_names(options, {}, "target") : Texts{},
                        invocation.in);
    const auto systems = asked_systems(options, database);
    RetentionModels models(database);
    const auto profiles = profiles_of(
        asked_compounds(options.get<Texts>("target"), database, inputs.standard_input()), systems,
        models, invocation.err);
    if (!file_of_report) {
        models.keep(); // a report names the checksum of the library, which stays as it is
    }

    const Style style = style_for(invocation.out);
    Report report;
    for (const CompoundProfile &profile : profiles) {
        report.results.push_back(predict_json(profile));
        invocation.out << (invocation.json ? json_line(report.results.back())
                                           : predict_text(profile, style))
                       << '\n';
    }
    if (!invocation.json) {
        for (const library::System &system : systems) {
            const std::string order = elution_order_text(profiles, system);
            invocation.out << order << (order.empty() ? "" : "\n");
        }
        invocation.out << wrapped(kRetentionIsNoProof, 0);
    }
    if (file_of_report) {
        report.trace = trace_of("predict", invocation, inputs.traces());
        write_report(*file_of_report, report, predict_report());
    }
    return kDone;
}

} // namespace cospot
