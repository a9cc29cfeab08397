#include "library/corrections.h"

namespace cospot::library {

std::vector<MeasurementId> held_values(Database &database, CompoundId compound, RunId run,
                                       Quantity quantity) {
    Statement &query = database.cached(
        "SELECT id FROM measurement WHERE compound_id = ?1 AND run_id = ?2 AND quantity = ?3 "
        "AND superseded_by IS NULL AND retired_change_id IS NULL");
    query.bind(1, compound).bind(2, run).bind(3, to_text(quantity));
    std::vector<MeasurementId> ids;
    while (query.step()) {
        ids.push_back(query.id<MeasurementId>(0));
    }
    query.reset();
    return ids;
}

bool says_the_same(Database &database, MeasurementId value, const Measurement &measurement) {
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

void supersede(Database &database, MeasurementId old_value, const Measurement &corrected,
               ChangeId change) {
    const MeasurementId id = insert_measurement(database, corrected, change);
    database.cached("UPDATE measurement SET superseded_by = ?2 WHERE id = ?1")
        .bind(1, old_value)
        .bind(2, id)
        .run();
}

} // namespace cospot::library
