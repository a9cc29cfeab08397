#include "library/overview.h"

#include "library/damage.h"
#include "library/fits.h"
#include "shared/date.h"

#include <algorithm>
#include <set>

namespace cospot::library {

namespace {

#define RECORD_QUERY                                                                               \
    "SELECT m.id, c.name, s.name, m.quantity, m.value, m.uncertainty, r.name, r.date, "            \
    "r.operator, r.instrument, m.source, m.note, m.superseded_by, m.retired_change_id, "           \
    "l.who, l.at_utc, l.detail, w.who, w.at_utc, w.detail FROM measurement AS m "                  \
    "JOIN compound AS c ON c.id = m.compound_id JOIN system AS s ON s.id = m.system_id "           \
    "JOIN run AS r ON r.id = m.run_id JOIN change AS l ON l.id = m.change_id "                     \
    "LEFT JOIN measurement AS n ON n.id = m.superseded_by "                                        \
    "LEFT JOIN change AS w ON w.id = ifnull(m.retired_change_id, n.change_id) WHERE "
#define HELD "m.superseded_by IS NULL AND m.retired_change_id IS NULL AND "
#define BY_SYSTEM "ORDER BY s.name, m.quantity, r.date, r.name, m.id"
#define BY_COMPOUND "ORDER BY c.name, m.quantity, r.date, r.name, m.id"

void read_state(const Statement &query, MeasurementRecord &record) {
    record.superseded_by = query.optional_id<MeasurementId>(12);
    if (!query.is_null(13)) {
        record.state = ValueState::retired;
    } else if (record.superseded_by) {
        record.state = ValueState::superseded;
    }
    record.learned = {query.text(14), query.text(15), query.text(16)};
    if (record.state != ValueState::held) {
        record.withdrawn = Change{query.text(17), query.text(18), query.text(19)};
    }
}

void visit_records(Statement &query, const Database &database,
                   const std::function<void(const MeasurementRecord &)> &visit) {
    while (query.step()) {
        MeasurementRecord record;
        record.id = query.id<MeasurementId>(0);
        record.compound = query.text(1);
        record.system = query.text(2);
        record.quantity = sound(quantity_from_text(query.text(3)), database);
        record.value = query.real(4);
        record.uncertainty = query.optional_real(5);
        record.run = query.text(6);
        record.date = query.text(7);
        record.operator_name = query.text(8);
        record.instrument = query.text(9);
        record.source = query.text(10);
        record.note = query.text(11);
        read_state(query, record);
        visit(record);
    }
    query.reset();
}

} // namespace

std::string_view to_text(ValueState state) {
    switch (state) {
    case ValueState::held:
        return "held";
    case ValueState::superseded:
        return "superseded";
    case ValueState::retired:
        return "retired";
    }
    return "";
}

std::size_t independent_runs(std::span<const MeasurementRecord> values) {
    std::set<std::vector<std::string>> runs;
    std::size_t alone = 0;
    for (const MeasurementRecord &value : values) {
        if (value.state != ValueState::held) {
            continue;
        }
        if (value.run.empty() && value.date.empty()) {
            ++alone;
        } else if (is_day(value.date)) {
            runs.insert({value.system, value.date});
        } else {
            runs.insert(
                {value.system, value.date, value.run, value.operator_name, value.instrument});
        }
    }
    return runs.size() + alone;
}

Counts counts_of_system(Database &database, SystemId system) {
    Statement &query = database.cached(
        "SELECT count(*), count(DISTINCT compound_id) FROM measurement WHERE system_id = ?1 "
        "AND superseded_by IS NULL AND retired_change_id IS NULL");
    Counts counts;
    if (query.bind(1, system).step()) {
        counts = {query.integer(0), query.integer(1)};
    }
    query.reset();
    return counts;
}

std::int64_t values_up_to(Database &database, SystemId system, Quantity quantity,
                          std::int64_t most) {
    if (const auto kept = kept_fit(database, system, quantity)) {
        return std::min(kept->values, most);
    }
    Statement &query = database.cached(
        "SELECT count(*) FROM (SELECT 1 FROM measurement WHERE system_id = ?1 AND quantity = ?2 "
        "AND superseded_by IS NULL AND retired_change_id IS NULL LIMIT ?3)");
    const bool is_there = query.bind(1, system).bind(2, to_text(quantity)).bind(3, most).step();
    const std::int64_t count = is_there ? query.integer(0) : 0;
    query.reset();
    return count;
}

std::vector<Quantity> quantities_on_system(Database &database, SystemId system) {
    std::vector<Quantity> quantities;
    for (const Quantity quantity :
         {Quantity::RI, Quantity::Rf, Quantity::k, Quantity::RRT, Quantity::r, Quantity::tR}) {
        if (values_up_to(database, system, quantity, 1) > 0) {
            quantities.push_back(quantity);
        }
    }
    return quantities;
}

void for_each_value_of_compound(Database &database, CompoundId compound, Visit which,
                                const std::function<void(const MeasurementRecord &)> &visit) {
    Statement &query = which == Visit::all
                           ? database.cached(RECORD_QUERY "m.compound_id = ?1 " BY_SYSTEM)
                           : database.cached(RECORD_QUERY HELD "m.compound_id = ?1 " BY_SYSTEM);
    visit_records(query.bind(1, compound), database, visit);
}

void for_each_value_on_system(Database &database, SystemId system, Visit which,
                              const std::function<void(const MeasurementRecord &)> &visit) {
    Statement &query = which == Visit::all
                           ? database.cached(RECORD_QUERY "m.system_id = ?1 " BY_COMPOUND)
                           : database.cached(RECORD_QUERY HELD "m.system_id = ?1 " BY_COMPOUND);
    visit_records(query.bind(1, system), database, visit);
}

} // namespace cospot::library
