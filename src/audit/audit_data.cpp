#include "audit/audit_data.h"

#include "library/damage.h"

#include <stdexcept>

namespace cospot {

namespace {

constexpr const char *kQuantitiesOnSystems =
    "SELECT s.id, s.name, s.technique, s.stationary_phase, s.scale, m.quantity "
    "FROM system AS s JOIN (SELECT DISTINCT system_id, quantity FROM measurement "
    "WHERE superseded_by IS NULL AND retired_change_id IS NULL) AS m ON m.system_id = s.id "
    "WHERE s.retired_change_id IS NULL ORDER BY s.name, m.quantity";

constexpr const char *kValuesOnSystem =
    "SELECT m.compound_id, m.id, m.run_id, r.name <> '' OR r.date <> '', r.date, m.value "
    "FROM measurement AS m JOIN run AS r ON r.id = m.run_id "
    "WHERE m.system_id = ?1 AND m.quantity = ?2 "
    "AND m.superseded_by IS NULL AND m.retired_change_id IS NULL "
    "ORDER BY m.compound_id, r.date, m.id";

std::string compound_name(library::Database &database, library::CompoundId id) {
    library::Statement &query = database.cached("SELECT name FROM compound WHERE id = ?1");
    std::string name = query.bind(1, id).step() ? query.text(0) : "";
    query.reset();
    return name;
}

void read_values(library::Database &database, AuditedSystem &system) {
    library::Statement &query = database.cached(kValuesOnSystem);
    query.bind(1, system.id).bind(2, to_text(system.quantity));
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

} // namespace

void for_each_audited_system(library::Database &database,
                             const std::function<void(const AuditedSystem &)> &visit) {
    library::Statement query = database.prepare(kQuantitiesOnSystems);
    while (query.step()) {
        AuditedSystem system{
            .id = query.id<library::SystemId>(0),
            .name = query.text(1),
            .technique = library::sound(technique_from_text(query.text(2)), database),
            .stationary_phase = query.text(3),
            .scale = query.text(4),
            .quantity = library::sound(quantity_from_text(query.text(5)), database),
            .compounds = {}};
        read_values(database, system);
        visit(system);
    }
}

std::vector<AuditedStructure> audited_structures(library::Database &database) {
    library::Statement query = database.prepare(
        "SELECT c.id, c.inchikey, c.parent_inchikey, c.name, coalesce(c.cas, ''), c.open_stereo "
        "FROM compound AS c WHERE EXISTS (SELECT 1 FROM measurement AS m "
        "WHERE m.compound_id = c.id AND m.superseded_by IS NULL AND m.retired_change_id IS NULL) "
        "ORDER BY c.id");
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
