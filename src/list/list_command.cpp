#include "options/command.h"
#include "document/json.h"
#include "library/column_runs.h"
#include "library/selection.h"
#include "options/open_library.h"
#include "options/options.h"
#include "list/library_json.h"
#include "options/selection_options.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ostream.h>

#include <algorithm>
#include <optional>
#include <ostream>
#include <string>
#include <vector>

namespace cospot {

namespace {

void list_compounds(library::Database &database, const Invocation &invocation,
                    const library::Selection &selection,
                    const std::optional<std::vector<std::int64_t>> &only) {
    if (!invocation.json) {
        fmt::print(invocation.out, "{} {} {:>8} {:>6} {:>7}\n", padded("compound", 38),
                   padded("formula", 16), "mass", "values", "systems");
    }
    library::for_each_compound(
        database, selection, [&](const library::Compound &compound, const library::Counts &counts) {
            if (only && !std::binary_search(only->begin(), only->end(), compound.id)) {
                return;
            }
            if (invocation.json) {
                invocation.out << compound_json(compound, counts) << '\n';
            } else {
                fmt::print(invocation.out, "{} {} {:8.2f} {:6} {:7}\n", padded(compound.name, 38),
                           padded(compound.formula, 16), compound.average_mass, counts.values,
                           counts.others);
            }
        });
}

void list_systems(library::Database &database, const Invocation &invocation,
                  const library::Selection &selection) {
    if (!invocation.json) {
        fmt::print(invocation.out, "{} {} {} {:>6} {:>9}\n", padded("system", 22),
                   padded("technique", 9), padded("conditions", 29), "values", "compounds");
    }
    for (const library::System &system : library::select_systems(database, selection)) {
        const library::Counts counts = library::counts_of_system(database, system.id);
        if (invocation.json) {
            invocation.out << system_json(system, counts) << '\n';
            continue;
        }
        std::string conditions = system.mobile_phase;
        conditions += (conditions.empty() || system.programme.empty() ? "" : ", ");
        conditions += system.programme;
        conditions.insert(0, system.retired ? "retired; " : "");
        fmt::print(invocation.out, "{} {} {} {:6} {:9}\n", padded(system.name, 22),
                   padded(to_text(system.technique), 9), padded(conditions, 29), counts.values,
                   counts.others);
    }
}

void list_columns(library::Database &database, const Invocation &invocation) {
    if (!invocation.json) {
        fmt::print(invocation.out, "{} {:>9} {:>12} {:>7} {:>17} {:>6}\n", padded("column", 24),
                   "silica, g", "diameter, mm", "bed, mm", "column volume, mL", "bands");
    }
    const auto number = [](const std::optional<double> &size) {
        return size ? fmt::format("{:g}", *size) : std::string();
    };
    for (const library::PackedColumn &column : library::all_columns(database)) {
        const std::size_t bands = library::bands_of_column(database, column.id).size();
        if (invocation.json) {
            invocation.out << json_line({{"column", column.name},
                                         {"silica_g", or_null(column.silica_g)},
                                         {"diameter_mm", or_null(column.diameter_mm)},
                                         {"bed_mm", or_null(column.bed_mm)},
                                         {"column_volume_mL", or_null(column.hold_up_ml)},
                                         {"outside_mL", or_null(column.outside_ml)},
                                         {"bands", bands}})
                           << '\n';
            continue;
        }
        fmt::print(invocation.out, "{} {:>9} {:>12} {:>7} {:>17} {:>6}\n", padded(column.name, 24),
                   number(column.silica_g), number(column.diameter_mm), number(column.bed_mm),
                   number(column.hold_up_ml), bands);
    }
}

} // namespace

int run_list(const Invocation &invocation) {
    CommandOptions options("cospot [--library FILE] [--json] list [compounds|systems|columns]",
                           "Lists what the library holds, compounds unless told otherwise.");
    add_selection_options(options);
    options.positional("what", 1, "compounds, systems or columns");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    const std::string what =
        options.has("what") ? options.get<std::vector<std::string>>("what").front() : "compounds";
    if (what != "compounds" && what != "systems" && what != "columns") {
        throw InputError({"command line", 0, ""}, in_quotes(what), "compounds, systems or columns");
    }
    library::Database database = open_library(invocation, library::Access::read);
    const library::Selection selection = selection_of(options);
    if (what == "systems") {
        list_systems(database, invocation, selection);
        return kDone;
    }
    if (what == "columns") {
        list_columns(database, invocation);
        return kDone;
    }
    std::optional<std::vector<std::int64_t>> only;
    if (options.has("substructure")) {
        only = with_substructure(database, selection, options.get<std::string>("substructure"));
    }
    list_compounds(database, invocation, selection, only);
    return kDone;
}

} // namespace cospot
