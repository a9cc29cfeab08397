#include "library/measurements.h"

#include "library/damage.h"

#include "shared/date.h"
#include "shared/text.h"

#include <algorithm>
#include <tuple>

namespace cospot::library {

MeasurementId insert_measurement(Database &database, const Measurement &measurement,
                                 ChangeId change) {
    database
        .cached(
            "INSERT INTO measurement (compound_id, system_id, run_id, quantity, value, "
            "uncertainty, source, note, change_id, retired_change_id) VALUES (?1, ?2, ?3, ?4, ?5, "
            "?6, ?7, ?8, ?9, (SELECT retired_change_id FROM system WHERE id = ?2))")
        .bind(1, measurement.compound)
        .bind(2, measurement.system)
        .bind(3, measurement.run)
        .bind(4, to_text(measurement.quantity))
        .bind(5, measurement.value)
        .bind(6, measurement.uncertainty)
        .bind(7, measurement.source)
        .bind(8, measurement.note)
        .bind(9, change)
        .run();
    return database.last_insert_id<MeasurementId>();
}

MeasurementWriter::MeasurementWriter(Database &database, ChangeId change)
    : database_(&database), change_(change) {
    // Old rows that a row of this change has matched; each stands for one replicate.
    database.execute("DROP TABLE IF EXISTS temp.matched; "
                     "CREATE TEMP TABLE matched (measurement_id INTEGER PRIMARY KEY)");
    begin_file();
}

void MeasurementWriter::begin_file() {
    database_->execute("DELETE FROM temp.matched");
    Statement &newest = database_->cached("SELECT ifnull(max(id), 0) FROM measurement");
    last_held_ = newest.step() ? newest.id<MeasurementId>(0) : MeasurementId{};
    newest.reset();
}

MeasurementId MeasurementWriter::held_before(const Measurement &measurement) {
    if (last_held_ == MeasurementId{}) {
        return {}; // the library was empty
    }
    Statement &held = database_->cached(
        "SELECT id FROM measurement WHERE compound_id = ?1 AND run_id = ?2 AND quantity = ?3 "
        "AND value = ?4 AND source = ?5 AND id <= ?6 "
        "AND id NOT IN (SELECT measurement_id FROM temp.matched) "
        "ORDER BY superseded_by IS NOT NULL OR retired_change_id IS NOT NULL LIMIT 1");
    const bool is_held = held.bind(1, measurement.compound)
                             .bind(2, measurement.run)
                             .bind(3, to_text(measurement.quantity))
                             .bind(4, measurement.value)
                             .bind(5, measurement.source)
                             .bind(6, last_held_)
                             .step();
    const auto id = is_held ? held.id<MeasurementId>(0) : MeasurementId{};
    held.reset();
    return id;
}

bool MeasurementWriter::add(const Measurement &measurement) {
    last_id_ = held_before(measurement);
    if (last_id_ != MeasurementId{}) {
        database_->cached("INSERT INTO temp.matched VALUES (?1)").bind(1, last_id_).run();
        return false;
    }
    last_id_ = insert_measurement(*database_, measurement, change_);
    return true;
}

std::vector<HeldValue> values_on_system(Database &database, SystemId system, Quantity quantity) {
    Statement &query = database.cached(
        "SELECT m.compound_id, m.run_id, r.name <> '' OR r.date <> '', m.value, "
        "iif(length(r.date) = 10, -CAST(replace(r.date, '-', '') AS INTEGER), m.run_id), "
        "ifnull(m.uncertainty, 0.0), r.date, c.inchikey, "
        "r.date || char(10) || r.name || char(10) || r.operator || char(10) || r.instrument "
        "FROM measurement AS m JOIN run AS r ON r.id = m.run_id "
        "JOIN compound AS c ON c.id = m.compound_id "
        "WHERE m.system_id = ?1 AND m.quantity = ?2 "
        "AND m.superseded_by IS NULL AND m.retired_change_id IS NULL");
    query.bind(1, system).bind(2, to_text(quantity));
    std::vector<HeldValue> values;
    while (query.step()) {
        if (!is_physical(quantity, query.real(3))) {
            report_damage(database);
        }
        values.push_back({query.id<CompoundId>(0), query.id<RunId>(1), query.integer(2) != 0,
                          query.real(3), query.integer(4), query.real(5),
                          decimal_year(query.text(6)), number_of(query.text(7)),
                          number_of(query.text(8))});
    }
    query.reset();
    std::sort(values.begin(), values.end(), [](const HeldValue &a, const HeldValue &b) {
        return std::tie(a.compound_key, a.run_key, a.value, a.uncertainty) <
               std::tie(b.compound_key, b.run_key, b.value, b.uncertainty);
    });
    return values;
}

} // namespace cospot::library
