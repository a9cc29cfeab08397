#include "library/overview.h"

namespace cospot::library {

namespace {

#define RECORD_QUERY                                                                               \
    "SELECT m.id, c.name, s.name, m.quantity, m.value, m.uncertainty, r.name, r.date, "            \
    "r.operator, r.instrument, m.source, m.note FROM measurement AS m "                            \
    "JOIN compound AS c ON c.id = m.compound_id JOIN system AS s ON s.id = m.system_id "           \
    "JOIN run AS r ON r.id = m.run_id "                                                            \
    "WHERE m.superseded_by IS NULL AND m.retired_change_id IS NULL "

void visit_records(Statement &query, const std::function<void(const MeasurementRecord &)> &visit) {
    while (query.step()) {
        MeasurementRecord record;
        record.id = query.integer(0);
        record.compound = query.text(1);
        record.system = query.text(2);
        record.quantity = quantity_from_text(query.text(3)).value();
        record.value = query.real(4);
        record.uncertainty = query.optional_real(5);
        record.run = query.text(6);
        record.date = query.text(7);
        record.operator_name = query.text(8);
        record.instrument = query.text(9);
        record.source = query.text(10);
        record.note = query.text(11);
        visit(record);
    }
    query.reset();
}

} // namespace

void for_each_compound(Database &database,
                       const std::function<void(const Compound &, const Counts &)> &visit) {
    Statement query = database.prepare(
        "SELECT c.id, count(m.id), count(DISTINCT m.system_id) FROM compound AS c "
        "LEFT JOIN measurement AS m ON m.compound_id = c.id AND m.superseded_by IS NULL "
        "AND m.retired_change_id IS NULL GROUP BY c.id ORDER BY c.name, c.id");
    while (query.step()) {
        visit(find_compound(database, query.integer(0)).value(),
              {query.integer(1), query.integer(2)});
    }
}

Counts counts_of_system(Database &database, std::int64_t system) {
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

void for_each_value_of_compound(Database &database, std::int64_t compound,
                                const std::function<void(const MeasurementRecord &)> &visit) {
    visit_records(database
                      .cached(RECORD_QUERY "AND m.compound_id = ?1 "
                                           "ORDER BY s.name, m.quantity, r.date, r.name, m.id")
                      .bind(1, compound),
                  visit);
}

void for_each_value_on_system(Database &database, std::int64_t system,
                              const std::function<void(const MeasurementRecord &)> &visit) {
    visit_records(database
                      .cached(RECORD_QUERY "AND m.system_id = ?1 "
                                           "ORDER BY c.name, m.quantity, r.date, r.name, m.id")
                      .bind(1, system),
                  visit);
}

} // namespace cospot::library
