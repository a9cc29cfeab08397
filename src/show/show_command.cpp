#include "document/style.h"
#include "evidence/elution_order.h"
#include "library/descriptions.h"
#include "library/overview.h"
#include "library/retire.h"
#include "list/library_json.h"
#include "options/command.h"
#include "options/open_library.h"
#include "options/options.h"
#include "options/selection_options.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ostream.h>

#include <algorithm>
#include <functional>
#include <ostream>
#include <set>
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

void print_description(std::ostream &out, const std::optional<library::Description> &description) {
    if (!description) {
        return;
    }
    print_field(out, "log P (Crippen)", fmt::format("{:.2f}", description->crippen_logp));
    print_field(out, "polar surface",
                fmt::format("{:.0f} square angstrom", description->polar_surface));
    print_field(out, "hydrogen bonds",
                fmt::format("{} donors, {} acceptors", description->hydrogen_bond_donors,
                            description->hydrogen_bond_acceptors));
    std::string groups;
    for (const auto &[name, occurrences] : description->groups) {
        groups += groups.empty() ? "" : ", ";
        groups += occurrences > 1 ? fmt::format("{} x {}", occurrences, name) : name;
    }
    std::replace(groups.begin(), groups.end(), '_', ' ');
    if (!groups.empty()) {
        out << "  groups\n" << wrapped(groups, 4);
    }
}

void print_record(std::ostream &out, const library::MeasurementRecord &record,
                  const std::string &subject, library::Visit which) {
    const bool with_id = which == library::Visit::all;
    const std::size_t width = with_id ? 23 : 30;
    const std::string name = padded(subject, width);
    fmt::print(out, "  {}{} {:>3} {:>8}  {:<10} {}\n",
               with_id ? fmt::format("{:<7}", fmt::format("#{}", record.id)) : "", name,
               to_text(record.quantity), shown(record.quantity, record.value), record.date,
               printable(record.run));
    if (record.withdrawn) {
        const std::string successor =
            record.superseded_by ? fmt::format(" by #{}", *record.superseded_by) : "";
        out << wrapped(printable(fmt::format("{}{} at {}, {}: {}", library::to_text(record.state),
                                             successor, record.withdrawn->at_utc,
                                             record.withdrawn->who, record.withdrawn->detail)),
                       9);
    }
}

/// Which values are to be shown.
struct Wanted {
    library::Visit which = library::Visit::held;
    std::function<bool(const library::MeasurementRecord &)> belongs;
};

void show_compound(library::Database &database, const library::Compound &compound,
                   const Invocation &invocation, const Style &style, const Wanted &wanted) {
    std::ostream &out = invocation.out;
    library::Counts counts;
    std::vector<library::MeasurementRecord> records;
    std::set<std::string> systems;
    library::for_each_value_of_compound(database, compound.id, wanted.which,
                                        [&](const auto &record) {
                                            if (!wanted.belongs(record)) {
                                                return;
                                            }
                                            if (record.state == library::ValueState::held) {
                                                systems.insert(record.system);
                                                ++counts.values;
                                            }
                                            records.push_back(record);
                                        });
    counts.others = static_cast<std::int64_t>(systems.size());
    if (invocation.json) {
        out << compound_json(compound, counts, library::description_of(database, compound.id))
            << '\n';
        for (const library::MeasurementRecord &record : records) {
            out << measurement_json(record, wanted.which) << '\n';
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
    print_description(out, library::description_of(database, compound.id));
    fmt::print(out, "{} values on {} systems\n", counts.values, counts.others);
    for (const library::MeasurementRecord &record : records) {
        print_record(out, record, record.system, wanted.which);
    }
}

void show_system(library::Database &database, const library::System &system,
                 const Invocation &invocation, const Style &style, const Wanted &wanted) {
    std::ostream &out = invocation.out;
    const library::Counts counts = library::counts_of_system(database, system.id);
    if (invocation.json) {
        out << system_json(system, counts) << '\n';
        library::for_each_value_on_system(
            database, system.id, wanted.which, [&](const auto &record) {
                if (wanted.belongs(record)) {
                    out << measurement_json(record, wanted.which) << '\n';
                }
            });
        return;
    }
    out << style.strong(printable(system.name)) << '\n';
    print_field(out, "technique", to_text(system.technique));
    print_field(out, "stationary phase", system.stationary_phase);
    print_field(out, "mobile phase", system.mobile_phase);
    print_field(out, "programme", system.programme);
    print_field(out, "index scale", system.scale);
    print_field(out, "reference", system.reference);
    print_number(out, "column length/m", system.column_length_m);
    print_number(out, "diameter/mm", system.column_diameter_mm);
    print_number(out, "film/um", system.film_um);
    print_number(out, "particle/um", system.particle_um);
    print_field(out, "note", system.note);
    if (const auto retired = library::retirement_of_system(database, system.id)) {
        print_field(out, "retired",
                    fmt::format("{}, {}: {}", retired->at_utc, retired->who, retired->detail));
    }
    for (const std::string &sentence : elution_words(database, system)) {
        out << wrapped(printable(sentence), 2);
    }
    fmt::print(out, "{} values of {} compounds\n", counts.values, counts.others);
    library::for_each_value_on_system(database, system.id, wanted.which, [&](const auto &record) {
        if (wanted.belongs(record)) {
            print_record(out, record, record.compound, wanted.which);
        }
    });
}

} // namespace

int run_show(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] show NAME [options]",
        "Shows all that the library holds on the compound (by name, registry number or InChIKey)\n"
        "or system NAME; the options narrow its values.");
    options.add()("all", "retired and superseded values too, with their ids, who and when");
    add_selection_options(options);
    options.positional("subject", 1, "compound or system");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    if (!options.has("subject")) {
        throw InputError({"command line", 0, ""}, "no name", "the NAME of a compound or system");
    }
    const std::string name = options.get<std::vector<std::string>>("subject").front();
    library::Database database = open_library(invocation, library::Access::read);
    const Style style = style_for(invocation.out);
    const Wanted wanted{options.has("all") ? library::Visit::all : library::Visit::held,
                        value_filter(options, database)};
    const auto system = library::find_system(database, name);
    const auto compounds = library::find_by_name(database, name);
    if (!system && compounds.empty()) {
        throw InputError({"command line", 0, ""}, in_quotes(name),
                         "a compound or system of the library (cospot list)");
    }
    if (system) {
        show_system(database, *system, invocation, style, wanted);
    }
    for (const library::Compound &compound : compounds) {
        show_compound(database, compound, invocation, style, wanted);
    }
    return kDone;
}

} // namespace cospot
