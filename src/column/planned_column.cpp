#include "column/planned_column.h"

#include "integration/photographed_rows.h"
#include "library/column_runs.h"
#include "library/compounds.h"
#include "library/names.h"
#include "library/systems.h"
#include "options/compound_options.h"
#include "options/open_library.h"
#include "options/options.h"
#include "readers/column_table.h"
#include "readers/input_file.h"
#include "shared/eluent.h"
#include "shared/text.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace cospot {

namespace {

/// What the library calls a compound now; the name itself where it holds none or several of it.
std::string name_in_library(const std::string &name, library::Database &database) {
    const auto found = library::find_by_name(database, name);
    return found.size() == 1 ? found.front().name : name;
}

/// A column of the laboratory's own, with what its runs showed.
fractions::OwnColumn own_column(const std::string &name, library::Database &database) {
    const auto stored = library::find_column(database, name);
    if (!stored) {
        throw bad_option("column", in_quotes(name),
                         "a column of the library (cospot list columns)");
    }
    fractions::OwnColumn own{stored->name, {}, {}};
    own.stated.silica_g = stored->silica_g;
    own.stated.hold_up_ml = stored->hold_up_ml;
    own.stated.outside_ml = stored->outside_ml;
    if (stored->diameter_mm && stored->bed_mm) {
        own.stated.bed = quantities::ColumnBed{*stored->diameter_mm, *stored->bed_mm};
    }
    for (const library::ColumnBand &band : library::bands_of_column(database, stored->id)) {
        const std::string run = band.run.empty() ? band.date : band.run + " " + band.date;
        own.seen.push_back({run, name_in_library(band.compound, database), band.rf, band.start_ml,
                            band.peak_ml, band.end_ml, band.amount_mg, band.load_ml});
    }
    return own;
}

std::optional<AskedCompound> compound_called(const std::string &name, library::Database &database) {
    const auto found = compound_if_named(database, name, at_option("compounds"));
    if (!found) {
        return std::nullopt;
    }
    check_in_use(database, *found, at_option("compounds"));
    return AskedCompound{found->name, found->smiles, found->inchikey, found->id};
}

std::vector<AskedCompound> listed_compounds(const std::string &text, library::Database &database) {
    std::vector<AskedCompound> compounds;
    for (const library::Compound &found : compounds_in_list(text, "compounds", database)) {
        const bool is_again =
            std::any_of(compounds.begin(), compounds.end(),
                        [&](const auto &known) { return known.inchikey == found.inchikey; });
        if (is_again) {
            throw bad_option("compounds", in_quotes(found.name) + " again", "each compound once");
        }
        compounds.push_back({found.name, found.smiles, found.inchikey, found.id});
    }
    return compounds;
}

library::System plate_system(const std::string &name, library::Database &database) {
    library::System system = system_named(database, name, at_option("system"));
    if (!can_show(system.technique, Quantity::Rf)) {
        throw bad_option("system", in_quotes(name) + ", which shows no R_F",
                         "the system of the plate");
    }
    return system;
}

/// Compounds of the library with the R_F that is expected of them on the system.
std::vector<fractions::PlateCompound> compounds_of_library(const std::string &list,
                                                           const library::System &system,
                                                           RetentionModels &models,
                                                           ColumnResult &result) {
    const std::vector<AskedCompound> asked = listed_compounds(list, models.database());
    const auto expected = expected_retention(models, asked, {system});
    std::vector<fractions::PlateCompound> compounds;
    for (std::size_t i = 0; i < asked.size(); ++i) {
        const auto found =
            std::find_if(expected[i].begin(), expected[i].end(), [](const auto &retention) {
                return retention.quantity == Quantity::Rf && retention.prediction.has_value();
            });
        if (found == expected[i].end()) {
            throw bad_option("compounds", in_quotes(asked[i].name),
                             "compounds of which the library can tell an R_F on " + system.name +
                                 " (cospot predict says why not)");
        }
        // Nine of ten lie within 1.645 standard deviations to both sides.
        constexpr double nine_of_ten = 1.645;
        compounds.push_back({asked[i].name, found->expected, fractions::Role::unknown, std::nullopt,
                             std::max((found->high - found->low) / (2.0 * nine_of_ten), 1e-3)});
        result.expected.emplace(asked[i].name, *found);
    }
    return compounds;
}

std::vector<fractions::PlateCompound> compounds_of_file(const ColumnOptions &options,
                                                        std::istream &standard_input,
                                                        ColumnResult &result) {
    InputFile input(*options.file, standard_input);
    ColumnTable table =
        holds_photo(input.stream())
            ? column_rows(read_photo(input.stream(), input.name(), options.photo), options.photo)
            : read_column_compounds(input.stream(), input.name(), options.aliases);
    result.notes.insert(result.notes.end(), table.notes.begin(), table.notes.end());
    return std::move(table.compounds);
}

/// Makes the compound that the user names on the command line the target, instead of the table's.
void set_target(const std::string &name, std::vector<fractions::PlateCompound> &compounds) {
    bool is_there = false;
    for (fractions::PlateCompound &compound : compounds) {
        if (equal_ignoring_case(compound.name, name)) {
            compound.role = fractions::Role::target;
            is_there = true;
        } else if (compound.role == fractions::Role::target) {
            compound.role = fractions::Role::unknown;
        }
    }
    if (!is_there) {
        throw bad_option("target", in_quotes(name), "one of the compounds of the sample");
    }
}

/// What should become of the eluent, and what the library knows about other mixtures.
void advise_on_eluent(const ColumnOptions &options, const library::System *system,
                      RetentionModels *models, ColumnResult &result) {
    result.mobile_phase = system != nullptr ? system->mobile_phase : options.eluent.value_or("");
    if (!result.mobile_phase.empty()) {
        const auto eluent = parse_eluent(result.mobile_phase, at_option("eluent"));
        result.strong_solvent = strongest_solvent(eluent);
        result.eluent_doubts = eluent_doubts(eluent);
    }
    if (!result.plan.target) {
        return;
    }
    const fractions::PlateCompound &target = result.plan.compounds[*result.plan.target];
    result.change = eluent_change(target.rf);
    if (models == nullptr) {
        return;
    }
    if (const auto known = compound_called(target.name, models->database())) {
        result.eluents = advise_eluent(*models, *system, *known);
    } else {
        result.notes.push_back("The library does not hold " + target.name +
                               ": nothing is known of it in other mixtures.");
    }
}

} // namespace

ColumnResult planned_column(const ColumnOptions &options, const Invocation &invocation,
                            std::istream &standard_input) {
    ColumnResult result;
    result.settings = options.settings;
    std::optional<library::Database> database;
    std::optional<library::System> system;
    std::optional<RetentionModels> models;
    if (options.system || options.own_column) {
        database.emplace(open_library(invocation, library::Access::read));
    }
    if (options.system) {
        system = plate_system(*options.system, *database);
        result.system = system->name;
        models.emplace(*database);
    }
    if (options.own_column) {
        result.settings.own = own_column(*options.own_column, *database);
        const fractions::OwnColumn &own = *result.settings.own;
        result.held_out = fractions::held_out(fractions::assumed_column(own.stated), own.seen);
    }
    auto compounds = options.file
                         ? compounds_of_file(options, standard_input, result)
                         : compounds_of_library(*options.compounds, *system, *models, result);
    if (database) { // names of the table may be former ones; bands have the present ones
        for (fractions::PlateCompound &compound : compounds) {
            compound.name = name_in_library(compound.name, *database);
        }
    }
    if (options.target) {
        set_target(database ? name_in_library(*options.target, *database) : *options.target,
                   compounds);
    }
    result.plan = fractions::plan_column(std::move(compounds), result.settings);
    advise_on_eluent(options, system ? &*system : nullptr, models ? &*models : nullptr, result);
    if (models && options.keeps_models) {
        models->keep();
    }
    return result;
}

} // namespace cospot
