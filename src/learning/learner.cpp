#include "learning/learner.h"

#include "library/systems.h"
#include "shared/error.h"
#include "shared/text.h"
#include "structures/structure_service.h"

#include <fmt/format.h>

#include <utility>

namespace cospot {

namespace {

library::Compound describe(std::string_view smiles, const Where &where) {
    try {
        const descriptors::Structure structure = structure_service().read_smiles(smiles);
        return {.id = 0,
                .inchikey = structure.inchikey,
                .parent_inchikey = structure.parent_inchikey,
                .smiles = structure.smiles,
                .name = "",
                .cas = "",
                .formula = structure.formula,
                .average_mass = structure.average_mass,
                .monoisotopic_mass = structure.monoisotopic_mass,
                .open_stereo = structure.has_unassigned_stereo};
    } catch (const InputError &error) {
        throw InputError(where, error.found(), error.expected());
    }
}

/// Takes over `stated` where `held` is unstated; throws where both are stated and differ.
void complete(std::string &held, const std::string &stated, const char *column, const Where &row) {
    if (held.empty()) {
        held = stated;
    } else if (!stated.empty() && stated != held) {
        throw InputError({row.file, row.line, column}, in_quotes(stated),
                         in_quotes(held) +
                             " as the library says: other conditions are another system, "
                             "under another name");
    }
}

void complete(std::optional<double> &held, std::optional<double> stated, const char *column,
              const Where &row) {
    if (!held) {
        held = stated;
    } else if (stated && *stated != *held) {
        throw InputError({row.file, row.line, column}, fmt::format("{}", *stated),
                         fmt::format("{} as the library says", *held));
    }
}

/// Returns whether the library said less about the system than the row does.
bool complete_from_row(library::System &held, const SystemRow &row) {
    const library::System before = held;
    const library::System &stated = row.system;
    if (stated.technique != held.technique) {
        throw InputError({row.where.file, row.where.line, "technique"},
                         in_quotes(to_text(stated.technique)),
                         in_quotes(to_text(held.technique)) + " as the library says");
    }
    complete(held.stationary_phase, stated.stationary_phase, "stationary_phase", row.where);
    complete(held.mobile_phase, stated.mobile_phase, "mobile_phase", row.where);
    complete(held.programme, stated.programme, "programme", row.where);
    complete(held.scale, stated.scale, "scale", row.where);
    complete(held.column_length_m, stated.column_length_m, "column_length_m", row.where);
    complete(held.column_diameter_mm, stated.column_diameter_mm, "column_diameter_mm", row.where);
    complete(held.film_um, stated.film_um, "film_um", row.where);
    complete(held.particle_um, stated.particle_um, "particle_um", row.where);
    if (held.note.empty()) {
        held.note = stated.note;
    }
    const auto texts = [](const library::System &s) {
        return s.stationary_phase.size() + s.mobile_phase.size() + s.programme.size() +
               s.scale.size() + s.note.size();
    };
    const auto numbers = [](const library::System &s) {
        return int{s.column_length_m.has_value()} + int{s.column_diameter_mm.has_value()} +
               int{s.film_um.has_value()} + int{s.particle_um.has_value()};
    };
    return texts(held) != texts(before) || numbers(held) != numbers(before);
}

/// What a system is that only a value names.
library::System system_of_value(std::string_view name, Quantity quantity) {
    library::System system;
    system.name = name;
    switch (quantity) {
    case Quantity::Rf:
        system.technique = Technique::tlc;
        break;
    case Quantity::RI:
        system.technique = Technique::gc;
        break;
    case Quantity::k:
    case Quantity::tR:
        system.technique = Technique::hplc;
        break;
    }
    return system;
}

} // namespace

Learner::Learner(library::Database &database, std::int64_t change, bool create_systems)
    : database_(&database), change_(change), create_systems_(create_systems),
      writer_(database, change) {}

void Learner::learn_systems(const std::vector<SystemRow> &rows) {
    for (const SystemRow &row : rows) {
        auto held = library::find_system(*database_, row.system.name);
        if (!held) {
            library::add_system(*database_, row.system, row.eluent, change_);
            ++summary_.systems_added;
            continue;
        }
        ++summary_.systems_known;
        if (complete_from_row(*held, row)) {
            library::complete_system(*database_, *held,
                                     held->mobile_phase.empty()
                                         ? std::vector<SolventPart>{}
                                         : parse_eluent(held->mobile_phase, row.where));
            summary_.remarks.push_back("system " + held->name + ": unstated conditions filled in");
        }
    }
}

void Learner::learn_values(MeasurementTable &table) {
    while (const auto row = table.next()) {
        learn_row(*row, table);
    }
    for (const std::string &column : table.unused()) {
        summary_.remarks.push_back(table.where("").file + ": column " + in_quotes(column) +
                                   " is not used");
    }
}

void Learner::learn_row(const MeasurementRow &row, const MeasurementTable &table) {
    library::Measurement measurement;
    measurement.system = system_of(row, table);
    measurement.compound = compound_of(row, table);
    measurement.run = library::find_or_add_run(*database_, measurement.system,
                                               {.name = std::string(row.run),
                                                .date = row.date,
                                                .operator_name = std::string(row.operator_name),
                                                .instrument = std::string(row.instrument)},
                                               change_);
    measurement.quantity = row.quantity;
    measurement.value = row.value;
    measurement.uncertainty = row.uncertainty;
    measurement.source = row.source;
    measurement.note = row.note;
    ++(writer_.add(measurement) ? summary_.values_added : summary_.values_known);
}

std::int64_t Learner::system_of(const MeasurementRow &row, const MeasurementTable &table) {
    const auto known = systems_.find(row.system);
    if (known != systems_.end()) {
        return known->second;
    }
    std::int64_t id = 0;
    if (const auto held = library::find_system(*database_, row.system)) {
        id = held->id;
    } else if (create_systems_) {
        const library::System created = system_of_value(row.system, row.quantity);
        id = library::add_system(*database_, created, {}, change_);
        ++summary_.systems_added;
        summary_.remarks.push_back(fmt::format(
            "system {}: created as {} because its values are {}; state its conditions with "
            "--systems",
            created.name, to_text(created.technique), to_text(row.quantity)));
    } else {
        throw InputError(table.where("system"), in_quotes(row.system),
                         "a system that the library holds (describe it in a table for --systems, "
                         "or give --create-systems)");
    }
    systems_.emplace(row.system, id);
    return id;
}

std::int64_t Learner::compound_of(const MeasurementRow &row, const MeasurementTable &table) {
    const std::string key = fmt::format("{}\n{}\n{}", row.compound, row.smiles, row.cas);
    const auto known = compounds_.find(key);
    if (known != compounds_.end()) {
        return known->second;
    }
    const std::int64_t id =
        row.smiles.empty() ? compound_by_name(row, table) : compound_by_structure(row, table);
    compounds_.emplace(key, id);
    return id;
}

std::int64_t Learner::compound_by_name(const MeasurementRow &row, const MeasurementTable &table) {
    const auto named = library::find_by_name(*database_, row.compound);
    if (named.size() != 1) {
        throw InputError(table.where("smiles"), "nothing",
                         named.empty() ? "a SMILES: the library holds no compound of that name"
                                       : "a SMILES: several structures bear that name");
    }
    note_names(named.front(), row);
    return named.front().id;
}

std::int64_t Learner::compound_by_structure(const MeasurementRow &row,
                                            const MeasurementTable &table) {
    const auto read = inchikeys_.find(std::string(row.smiles));
    library::Compound compound;
    if (read == inchikeys_.end()) {
        compound = describe(row.smiles, table.where("smiles"));
        inchikeys_.emplace(row.smiles, compound.inchikey);
    } else {
        compound.inchikey = read->second;
    }
    if (const auto held = library::find_by_inchikey(*database_, compound.inchikey)) {
        note_names(*held, row);
        return held->id;
    }
    for (const library::Compound &other : library::find_by_name(*database_, row.compound)) {
        summary_.remarks.push_back(fmt::format("{}: this name stands for another structure too ({} "
                                               "and {}); they are kept apart by structure",
                                               row.compound, other.inchikey, compound.inchikey));
    }
    compound.name = row.compound;
    compound.cas = row.cas;
    ++summary_.compounds_added;
    return library::add_compound(*database_, compound, change_);
}

/// Keeps a further name and a first registry number of a structure that the library holds.
void Learner::note_names(const library::Compound &held, const MeasurementRow &row) {
    if (library::add_synonym(*database_, held.id, row.compound, change_)) {
        summary_.remarks.push_back(fmt::format("{}: same structure as {}; kept as a further name",
                                               row.compound, held.name));
    }
    if (row.cas.empty() || row.cas == held.cas) {
        return;
    }
    if (held.cas.empty()) {
        library::set_cas(*database_, held.id, row.cas);
    } else {
        summary_.remarks.push_back(fmt::format("{}: registry number {} differs from the {} that "
                                               "the library holds, which stays",
                                               row.compound, row.cas, held.cas));
    }
}

} // namespace cospot
