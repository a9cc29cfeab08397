#include "command.h"
#include "command_line.h"
#include "library/library_file.h"
#include "library/overview.h"
#include "options.h"
#include "output/library_json.h"
#include "output/style.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ostream.h>

#include <ostream>
#include <string>
#include <vector>

namespace cospot {

namespace {

void print_field(std::ostream &out, std::string_view name, std::string_view value) {
    if (!value.empty()) {
        fmt::print(out, "  {:<18} {}\n", name, printable(value));
    }
}

void print_number(std::ostream &out, std::string_view name, const std::optional<double> &value) {
    if (value) {
        print_field(out, name, fmt::format("{:g}", *value));
    }
}

void print_record(std::ostream &out, const library::MeasurementRecord &record,
                  const std::string &subject) {
    std::string name = fitted(printable(subject), 30);
    name.append(30 - display_width(name), ' ');
    fmt::print(out, "  {} {:>2} {:>8}  {:<10} {}\n", name, to_text(record.quantity),
               shown(record.quantity, record.value), record.date, printable(record.run));
}

void show_compound(library::Database &database, const library::Compound &compound,
                   const Invocation &invocation, const Style &style) {
    std::ostream &out = invocation.out;
    library::Counts counts;
    std::vector<library::MeasurementRecord> records;
    library::for_each_value_of_compound(database, compound.id, [&](const auto &record) {
        counts.others += records.empty() || records.back().system != record.system ? 1 : 0;
        ++counts.values;
        records.push_back(record);
    });
    if (invocation.json) {
        out << compound_json(compound, counts) << '\n';
        for (const library::MeasurementRecord &record : records) {
            out << measurement_json(record) << '\n';
        }
        return;
    }
    out << style.strong(printable(compound.name)) << '\n';
    for (const std::string &synonym : library::synonyms_of(database, compound.id)) {
        print_field(out, "also called", synonym);
    }
    print_field(out, "formula", compound.formula);
    print_field(out, "molar mass", fmt::format("{:.3f} g/mol", compound.average_mass));
    print_field(out, "monoisotopic mass", fmt::format("{:.4f} Da", compound.monoisotopic_mass));
    print_field(out, "SMILES", compound.smiles);
    print_field(out, "InChIKey", compound.inchikey);
    print_field(out, "registry number", compound.cas);
    print_field(out, "stereo", compound.open_stereo ? "not fully given" : "");
    fmt::print(out, "{} values on {} systems\n", counts.values, counts.others);
    for (const library::MeasurementRecord &record : records) {
        print_record(out, record, record.system);
    }
}

void show_system(library::Database &database, const library::System &system,
                 const Invocation &invocation, const Style &style) {
    std::ostream &out = invocation.out;
    const library::Counts counts = library::counts_of_system(database, system.id);
    if (invocation.json) {
        out << system_json(system, counts) << '\n';
        library::for_each_value_on_system(database, system.id, [&](const auto &record) {
            out << measurement_json(record) << '\n';
        });
        return;
    }
    out << style.strong(printable(system.name)) << '\n';
    print_field(out, "technique", to_text(system.technique));
    print_field(out, "stationary phase", system.stationary_phase);
    print_field(out, "mobile phase", system.mobile_phase);
    print_field(out, "programme", system.programme);
    print_field(out, "index scale", system.scale);
    print_number(out, "column length/m", system.column_length_m);
    print_number(out, "diameter/mm", system.column_diameter_mm);
    print_number(out, "film/um", system.film_um);
    print_number(out, "particle/um", system.particle_um);
    print_field(out, "note", system.note);
    fmt::print(out, "{} values of {} compounds\n", counts.values, counts.others);
    library::for_each_value_on_system(database, system.id, [&](const auto &record) {
        print_record(out, record, record.compound);
    });
}

} // namespace

int run_show(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] show NAME",
        "Shows all that the library holds on the compound (by name, registry number or InChIKey)\n"
        "or system NAME.");
    options.positional("name", 1, "compound or system");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    if (!options.has("name")) {
        throw InputError({"command line", 0, ""}, "no name", "the NAME of a compound or system");
    }
    const std::string name = options.get<std::vector<std::string>>("name").front();
    library::Database database = library::open_library(invocation.library, library::Access::read);
    const Style style = style_for(invocation.out);
    const auto system = library::find_system(database, name);
    const auto compounds = library::find_by_name(database, name);
    if (!system && compounds.empty()) {
        throw InputError({"command line", 0, ""}, in_quotes(name),
                         "a compound or system of the library (cospot list)");
    }
    if (system) {
        show_system(database, *system, invocation, style);
    }
    for (const library::Compound &compound : compounds) {
        show_compound(database, compound, invocation, style);
    }
    return kDone;
}

} // namespace cospot
