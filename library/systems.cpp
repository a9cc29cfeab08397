#include "library/systems.h"

#include "library/damage.h"
#include "shared/error.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <utility>

namespace cospot::library {

namespace {

#define SYSTEM_COLUMNS                                                                             \
    "id, name, technique, stationary_phase, mobile_phase, programme, scale, column_length_m, "     \
    "column_diameter_mm, film_um, particle_um, note, retired_change_id IS NOT NULL, reference"

System read_row(const Statement &row, const Database &database) {
    System system;
    system.id = row.id<SystemId>(0);
    system.name = row.text(1);
    system.technique = sound(technique_from_text(row.text(2)), database);
    system.stationary_phase = row.text(3);
    system.mobile_phase = row.text(4);
    system.programme = row.text(5);
    system.scale = row.text(6);
    system.column_length_m = row.optional_real(7);
    system.column_diameter_mm = row.optional_real(8);
    system.film_um = row.optional_real(9);
    system.particle_um = row.optional_real(10);
    system.note = row.text(11);
    system.retired = row.integer(12) != 0;
    system.reference = row.text(13);
    return system;
}

std::vector<System> read_all(Statement &query, const Database &database) {
    std::vector<System> systems;
    while (query.step()) {
        systems.push_back(read_row(query, database));
    }
    query.reset();
    return systems;
}

Statement &bind_conditions(Statement &statement, const System &system) {
    return statement.bind(2, to_text(system.technique))
        .bind(3, system.stationary_phase)
        .bind(4, system.mobile_phase)
        .bind(5, system.programme)
        .bind(6, system.scale)
        .bind(7, system.column_length_m)
        .bind(8, system.column_diameter_mm)
        .bind(9, system.film_um)
        .bind(10, system.particle_um)
        .bind(11, system.note)
        .bind(12, system.reference);
}

void write_eluent(Database &database, SystemId system, const std::vector<SolventPart> &eluent) {
    database.cached("DELETE FROM system_solvent WHERE system_id = ?1").bind(1, system).run();
    std::int64_t position = 0;
    for (const SolventPart &part : eluent) {
        database
            .cached("INSERT INTO system_solvent (system_id, position, solvent, parts) "
                    "VALUES (?1, ?2, ?3, ?4)")
            .bind(1, system)
            .bind(2, ++position)
            .bind(3, part.solvent)
            .bind(4, part.parts)
            .run();
    }
}

} // namespace

SystemId add_system(Database &database, const System &system,
                    const std::vector<SolventPart> &eluent, ChangeId change) {
    Statement &insert = database.cached(
        "INSERT INTO system (name, technique, stationary_phase, mobile_phase, programme, scale, "
        "column_length_m, column_diameter_mm, film_um, particle_um, note, reference, "
        "change_id) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13)");
    bind_conditions(insert.bind(1, system.name), system).bind(13, change).run();
    const SystemId id = database.last_insert_id<SystemId>();
    write_eluent(database, id, eluent);
    return id;
}

void complete_system(Database &database, const System &system,
                     const std::vector<SolventPart> &eluent) {
    Statement &update = database.cached(
        "UPDATE system SET technique = ?2, stationary_phase = ?3, mobile_phase = ?4, "
        "programme = ?5, scale = ?6, column_length_m = ?7, column_diameter_mm = ?8, film_um = ?9, "
        "particle_um = ?10, note = ?11, reference = ?12 WHERE id = ?1");
    bind_conditions(update.bind(1, system.id), system).run();
    write_eluent(database, system.id, eluent);
}

std::vector<SolventPart> eluent_of(Database &database, SystemId system) {
    Statement &query = database.cached(
        "SELECT solvent, parts FROM system_solvent WHERE system_id = ?1 ORDER BY position");
    query.bind(1, system);
    std::vector<SolventPart> eluent;
    while (query.step()) {
        eluent.push_back({query.text(0), query.real(1)});
    }
    query.reset();
    return eluent;
}

std::optional<System> find_system(Database &database, std::string_view name) {
    std::vector<System> found = read_all(
        database.cached("SELECT " SYSTEM_COLUMNS " FROM system WHERE name = ?1").bind(1, name),
        database);
    if (found.empty()) {
        found = read_all(
            database
                .cached("SELECT " SYSTEM_COLUMNS " FROM system WHERE id IN (SELECT system_id "
                        "FROM system_name WHERE name = ?1 AND name = ?1 COLLATE BINARY)")
                .bind(1, name),
            database);
    }
    if (found.empty()) {
        found = read_all(
            database
                .cached("SELECT " SYSTEM_COLUMNS " FROM system WHERE name = ?1 COLLATE NOCASE OR "
                        "id IN (SELECT system_id FROM system_name WHERE name = ?1) ORDER BY name")
                .bind(1, name),
            database);
    }
    if (found.size() > 1) {
        throw InputError({database.file().string(), 0, ""}, "system " + in_quotes(name),
                         fmt::format("one of {} and {}, which have names that differ from it in "
                                     "case only",
                                     in_quotes(found[0].name), in_quotes(found[1].name)));
    }
    return found.empty() ? std::nullopt : std::optional(std::move(found.front()));
}

std::vector<std::string> former_names_of(Database &database, SystemId system) {
    Statement &query =
        database.cached("SELECT name FROM system_name WHERE system_id = ?1 ORDER BY name");
    query.bind(1, system);
    std::vector<std::string> names;
    while (query.step()) {
        names.push_back(query.text(0));
    }
    query.reset();
    return names;
}

void give_name(Database &database, const System &system, const std::string &name, ChangeId change) {
    database.cached("DELETE FROM system_name WHERE system_id = ?1 AND name = ?2")
        .bind(1, system.id)
        .bind(2, name)
        .run();
    database.cached("UPDATE system SET name = ?2 WHERE id = ?1")
        .bind(1, system.id)
        .bind(2, name)
        .run();
    if (!equal_ignoring_case(system.name, name)) {
        keep_former_name(database, system.id, system.name, change);
    }
}

void keep_former_name(Database &database, SystemId system, const std::string &name,
                      ChangeId change) {
    database
        .cached("INSERT INTO system_name (name, system_id, change_id) VALUES (?1, ?2, ?3) "
                "ON CONFLICT DO NOTHING")
        .bind(1, name)
        .bind(2, system)
        .bind(3, change)
        .run();
}

std::optional<System> find_system(Database &database, SystemId id) {
    Statement &query = database.cached("SELECT " SYSTEM_COLUMNS " FROM system WHERE id = ?1");
    std::optional<System> found;
    if (query.bind(1, id).step()) {
        found = read_row(query, database);
    }
    query.reset();
    return found;
}

std::vector<System> all_systems(Database &database) {
    return read_all(database.cached("SELECT " SYSTEM_COLUMNS " FROM system ORDER BY name"),
                    database);
}

} // namespace cospot::library
