#include "audit/audit_data.h"

#include "library/damage.h"

#include <string>

namespace cospot {

namespace {

constexpr const char *kQuantitiesOnSystems =
    "SELECT s.id, s.name, s.technique, s.stationary_phase, s.scale, m.quantity "
    "FROM system AS s JOIN (SELECT DISTINCT system_id, quantity FROM measurement "
    "WHERE superseded_by IS NULL AND retired_change_id IS NULL) AS m ON m.system_id = s.id "
    "WHERE s.retired_change_id IS NULL ORDER BY s.name, m.quantity";

#define HELD_ON_SYSTEM                                                                             \
    "m.system_id = ?1 AND m.quantity = ?2 AND m.superseded_by IS NULL AND "                        \
    "m.retired_change_id IS NULL "
#define VALUES_ON_SYSTEM                                                                           \
    "SELECT m.compound_id, m.id, m.run_id, r.name <> '' OR r.date <> '', r.date, m.value "         \
    "FROM measurement AS m JOIN run AS r ON r.id = m.run_id WHERE " HELD_ON_SYSTEM
#define BY_COMPOUND "ORDER BY m.compound_id, r.date, m.id"

/// ?1: the compound. Structures that may be confused with it.
constexpr const char *kRelatedStructures =
    "WITH subject AS (SELECT name, cas, substr(inchikey, 1, 14) AS skeleton FROM compound "
    "WHERE id = ?1), called AS (SELECT name FROM subject UNION "
    "SELECT name FROM synonym WHERE compound_id = ?1) "
    "SELECT id FROM compound WHERE name IN (SELECT name FROM called) UNION "
    "SELECT compound_id FROM synonym WHERE name IN (SELECT name FROM called) UNION "
    "SELECT o.id FROM subject JOIN compound AS o ON o.cas = subject.cas UNION "
    "SELECT o.id FROM subject JOIN compound AS o ON o.inchikey BETWEEN skeleton AND skeleton || "
    "'~'";

std::string compound_name(library::Database &database, library::CompoundId id) {
    library::Statement &query = database.cached("SELECT name FROM compound WHERE id = ?1");
    std::string name = query.bind(1, id).step() ? query.text(0) : "";
    query.reset();
    return name;
}

} // namespace

std::vector<AuditedSystem> audited_systems(library::Database &database) {
    library::Statement query = database.prepare(kQuantitiesOnSystems);
    std::vector<AuditedSystem> systems;
    while (query.step()) {
        systems.push_back(
            {.id = query.id<library::SystemId>(0),
             .name = query.text(1),
             .technique = library::sound(technique_from_text(query.text(2)), database),
             .stationary_phase = query.text(3),
             .scale = query.text(4),
             .quantity = library::sound(quantity_from_text(query.text(5)), database),
             .compounds = {}});
    }
    return systems;
}

void read_values(library::Database &database, AuditedSystem &system,
                 std::optional<library::CompoundId> only) {
    library::Statement &query =
        only ? database.cached(VALUES_ON_SYSTEM "AND m.compound_id = ?3 " BY_COMPOUND)
             : database.cached(VALUES_ON_SYSTEM BY_COMPOUND);
    query.bind(1, system.id).bind(2, to_text(system.quantity));
    if (only) {
        query.bind(3, *only);
    }
    while (query.step()) {
        const auto compound = query.id<library::CompoundId>(0);
        if (system.compounds.empty() || system.compounds.back().id != compound) {
            system.compounds.push_back({compound, compound_name(database, compound), {}});
        }
        system.compounds.back().values.push_back(
            {.measurement = query.id<library::MeasurementId>(1),
             .run = query.id<library::RunId>(2),
             .run_is_named = query.integer(3) != 0,
             .date = query.text(4),
             .value = query.real(5)});
    }
    query.reset();
}

bool is_among_first(library::Database &database, const AuditedSystem &system,
                    library::CompoundId compound, std::size_t first) {
    library::Statement &query =
        database.cached("SELECT DISTINCT m.compound_id FROM measurement AS m WHERE " HELD_ON_SYSTEM
                        "ORDER BY m.compound_id LIMIT ?3");
    query.bind(1, system.id).bind(2, to_text(system.quantity));
    query.bind(3, static_cast<std::int64_t>(first));
    bool is_among = false;
    while (query.step()) {
        is_among |= query.id<library::CompoundId>(0) == compound;
    }
    query.reset();
    return is_among;
}

std::int64_t values_of_compound(library::Database &database, const AuditedSystem &system,
                                library::CompoundId compound) {
    library::Statement &query = database.cached(
        "SELECT count(*) FROM measurement AS m WHERE " HELD_ON_SYSTEM "AND m.compound_id = ?3");
    query.bind(1, system.id).bind(2, to_text(system.quantity)).bind(3, compound);
    const std::int64_t count = query.step() ? query.integer(0) : 0;
    query.reset();
    return count;
}

std::set<library::SystemId> systems_of_compound(library::Database &database,
                                                library::CompoundId compound) {
    library::Statement query =
        database.prepare("SELECT DISTINCT system_id FROM measurement WHERE compound_id = ?1 "
                         "AND superseded_by IS NULL AND retired_change_id IS NULL");
    query.bind(1, compound);
    std::set<library::SystemId> systems;
    while (query.step()) {
        systems.insert(query.id<library::SystemId>(0));
    }
    return systems;
}

bool is_on_another_system(library::Database &database, library::CompoundId compound,
                          library::SystemId system) {
    library::Statement &query =
        database.cached("SELECT 1 FROM measurement WHERE compound_id = ?1 AND system_id <> ?2 "
                        "AND superseded_by IS NULL AND retired_change_id IS NULL LIMIT 1");
    const bool is_there = query.bind(1, compound).bind(2, system).step();
    query.reset();
    return is_there;
}

std::vector<AuditedStructure> audited_structures(library::Database &database,
                                                 std::optional<library::CompoundId> subject) {
    library::Statement query = database.prepare(
        std::string("SELECT c.id, c.inchikey, c.parent_inchikey, c.name, coalesce(c.cas, ''), "
                    "c.open_stereo "
                    "FROM compound AS c WHERE EXISTS (SELECT 1 FROM measurement AS m "
                    "WHERE m.compound_id = c.id AND m.superseded_by IS NULL AND "
                    "m.retired_change_id IS NULL) ") +
        (subject ? std::string("AND c.id IN (") + kRelatedStructures + ") " : "") +
        "ORDER BY c.id");
    if (subject) {
        query.bind(1, *subject);
    }
    library::Statement names =
        database.prepare("SELECT compound_id, name FROM synonym ORDER BY compound_id, name");
    std::vector<AuditedStructure> structures;
    bool has_name = names.step();
    while (query.step()) {
        AuditedStructure structure{.id = query.id<library::CompoundId>(0),
                                   .inchikey = query.text(1),
                                   .parent_inchikey = query.text(2),
                                   .names = {query.text(3)},
                                   .cas = query.text(4),
                                   .open_stereo = query.integer(5) != 0};
        for (; has_name && names.id<library::CompoundId>(0) <= structure.id;
             has_name = names.step()) {
            if (names.id<library::CompoundId>(0) == structure.id) {
                structure.names.push_back(names.text(1));
            }
        }
        structures.push_back(std::move(structure));
    }
    return structures;
}

} // namespace cospot
