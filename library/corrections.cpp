#include "library/corrections.h"

namespace cospot::library {

std::vector<std::int64_t> held_values(Database &database, std::int64_t compound, std::int64_t run,
                                      Quantity quantity) {
    Statement &query = database.cached(
        "SELECT id FROM measurement WHERE compound_id = ?1 AND run_id = ?2 AND quantity = ?3 "
        "AND superseded_by IS NULL AND retired_change_id IS NULL");
    query.bind(1, compound).bind(2, run).bind(3, to_text(quantity));
    std::vector<std::int64_t> ids;
    while (query.step()) {
        ids.push_back(query.integer(0));
    }
    query.reset();
    return ids;
}

bool says_the_same(Database &database, std::int64_t value, const Measurement &measurement) {
    Statement &query = database.cached("SELECT 1 FROM measurement WHERE id = ?1 AND value = ?2 "
                                       "AND uncertainty IS ?3 AND source = ?4 AND note = ?5");
    const bool is_same = query.bind(1, value)
                             .bind(2, measurement.value)
                             .bind(3, measurement.uncertainty)
                             .bind(4, measurement.source)
                             .bind(5, measurement.note)
                             .step();
    query.reset();
    return is_same;
}

void supersede(Database &database, std::int64_t old_value, const Measurement &corrected,
               std::int64_t change) {
    const std::int64_t id = insert_measurement(database, corrected, change);
    database.cached("UPDATE measurement SET superseded_by = ?2 WHERE id = ?1")
        .bind(1, old_value)
        .bind(2, id)
        .run();
}

} // namespace cospot::library
