#include "library/measurements.h"

#include "library/damage.h"

#include "shared/date.h"
#include "shared/text.h"

#include <algorithm>
#include <tuple>
#include <unordered_map>

namespace cospot::library {

MeasurementId insert_measurement(Database &database, const Measurement &measurement,
                                 ChangeId change) {
    database
        .cached(
            "INSERT INTO measurement (compound_id, system_id, run_id, quantity, value, "
            "uncertainty, source, note, change_id, retired_change_id) VALUES (?1, ?2, ?3, ?4, ?5, "
            "?6, ?7, ?8, ?9, coalesce((SELECT retired_change_id FROM system WHERE id = ?2), "
            "(SELECT retired_change_id FROM compound WHERE id = ?1)))")
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

namespace {

/// What all values of a run share.
struct RunOfValues {
    bool is_named = false;
    std::int64_t session = 0;
    std::optional<double> year;
    std::uint64_t key = 0;
};

/// "2026-03-02" as -20260302, which no run has as its number.
std::int64_t session_of_day(std::string_view date) {
    std::int64_t digits = 0;
    for (const char c : date) {
        digits = c == '-' ? digits : 10 * digits + (c - '0');
    }
    return -digits;
}

RunOfValues run_of_values(Database &database, RunId run) {
    Statement &query =
        database.cached("SELECT date, name, operator, instrument FROM run WHERE id = ?1");
    if (!query.bind(1, run).step()) {
        report_damage(database);
    }
    const std::string date = query.text(0);
    const std::string name = query.text(1);
    RunOfValues found{!name.empty() || !date.empty(),
                      is_day(date) ? session_of_day(date) : as_number(run), decimal_year(date),
                      number_of(date + '\n' + name + '\n' + query.text(2) + '\n' + query.text(3))};
    query.reset();
    return found;
}

std::uint64_t key_of_compound(Database &database, CompoundId compound) {
    Statement &query = database.cached("SELECT inchikey FROM compound WHERE id = ?1");
    if (!query.bind(1, compound).step()) {
        report_damage(database);
    }
    const std::uint64_t key = number_of(query.text(0));
    query.reset();
    return key;
}

/// What is known of an id, looked up at its first use.
template <class Id, class Facts, class LookUp>
const Facts &known(std::unordered_map<Id, Facts> &all, Id id, const LookUp &look_up) {
    const auto found = all.find(id);
    return found != all.end() ? found->second : all.emplace(id, look_up(id)).first->second;
}

} // namespace

std::vector<HeldValue> values_on_system(Database &database, SystemId system, Quantity quantity) {
    Statement &query = database.cached(
        "SELECT compound_id, run_id, value, ifnull(uncertainty, 0.0) FROM measurement "
        "WHERE system_id = ?1 AND quantity = ?2 "
        "AND superseded_by IS NULL AND retired_change_id IS NULL");
    query.bind(1, system).bind(2, to_text(quantity));
    std::unordered_map<RunId, RunOfValues> runs;
    std::unordered_map<CompoundId, std::uint64_t> keys;
    std::vector<HeldValue> values;
    while (query.step()) {
        const double value = query.real(2);
        if (!is_physical(quantity, value)) {
            report_damage(database);
        }
        const auto compound = query.id<CompoundId>(0);
        const auto run = query.id<RunId>(1);
        const RunOfValues &its_run =
            known(runs, run, [&](RunId id) { return run_of_values(database, id); });
        const std::uint64_t key =
            known(keys, compound, [&](CompoundId id) { return key_of_compound(database, id); });
        values.push_back({compound, run, its_run.is_named, value, its_run.session, query.real(3),
                          its_run.year, key, its_run.key});
    }
    query.reset();
    std::sort(values.begin(), values.end(), [](const HeldValue &a, const HeldValue &b) {
        return std::tie(a.compound_key, a.run_key, a.value, a.uncertainty) <
               std::tie(b.compound_key, b.run_key, b.value, b.uncertainty);
    });
    return values;
}

} // namespace cospot::library
