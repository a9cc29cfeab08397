#include "library/selection.h"

#include "library/damage.h"
#include "library/selection_clause.h"

#include <utility>

namespace cospot::library {

namespace {

Clause clause_of(Database &database, const Selection &selection) {
    Clause clause;
    narrow(clause, database, selection);
    return clause;
}

/// Values that hold, with their compound, system and run.
constexpr std::string_view kHeldValues =
    " measurement AS m JOIN system AS s ON s.id = m.system_id JOIN run AS r ON r.id = m.run_id "
    "AND m.superseded_by IS NULL AND m.retired_change_id IS NULL AND s.retired_change_id IS NULL ";

/// The SQL of a page of compounds: behind the parameters of the clause how many, after how many.
/// Where values narrow it, it starts from them and counts them; else they are counted of the
/// compounds on the page only.
std::string compounds_sql(const Selection &selection, const Clause &clause) {
    const std::string page = " ORDER BY c.name, c.id LIMIT ? OFFSET ?";
    return selection.narrows_values()
               ? "SELECT c.id, count(m.id), count(DISTINCT m.system_id) FROM" +
                     std::string(kHeldValues) +
                     "JOIN compound AS c ON c.id = m.compound_id WHERE " + clause.sql +
                     " GROUP BY c.id" + page
               : "SELECT c.id FROM compound AS c WHERE " + clause.sql + page;
}

ExportRecord read_record(const Statement &row, const Database &database) {
    ExportRecord record;
    record.value.id = row.id<MeasurementId>(0);
    record.value.compound = row.text(1);
    record.smiles = row.text(2);
    record.cas = row.text(3);
    record.value.system = row.text(4);
    record.value.quantity = sound(quantity_from_text(row.text(5)), database);
    record.value.value = row.real(6);
    record.value.uncertainty = row.optional_real(7);
    record.value.run = row.text(8);
    record.value.date = row.text(9);
    record.value.operator_name = row.text(10);
    record.value.instrument = row.text(11);
    record.value.source = row.text(12);
    record.value.note = row.text(13);
    return record;
}

} // namespace

std::size_t count_compounds(Database &database, const Selection &selection) {
    const Clause clause = clause_of(database, selection);
    Statement query =
        database.prepare(selection.narrows_values()
                             ? "SELECT count(DISTINCT c.id) FROM" + std::string(kHeldValues) +
                                   "JOIN compound AS c ON c.id = m.compound_id WHERE " + clause.sql
                             : "SELECT count(*) FROM compound AS c WHERE " + clause.sql);
    clause.bind(query);
    return query.step() ? static_cast<std::size_t>(query.integer(0)) : 0;
}

void for_each_compound(Database &database, const Selection &selection,
                       const std::function<void(const Compound &, const Counts &)> &visit,
                       const Page &page) {
    const Clause clause = clause_of(database, selection);
    Statement query = database.prepare(compounds_sql(selection, clause));
    const int next = clause.bind(query);
    query.bind(next, page.top ? static_cast<std::int64_t>(*page.top) : -1);
    query.bind(next + 1, static_cast<std::int64_t>(page.skip));
    while (query.step()) {
        const auto id = query.id<CompoundId>(0);
        visit(sound(find_compound(database, id), database),
              selection.narrows_values() ? Counts{query.integer(1), query.integer(2)}
                                         : counts_of_compound(database, id));
    }
}

std::vector<System> select_systems(Database &database, const Selection &selection) {
    const std::string name = name_of_system(database, selection);
    std::vector<System> systems;
    for (System &system : all_systems(database)) {
        if ((!selection.technique || system.technique == *selection.technique) &&
            (name.empty() || system.name == name)) {
            systems.push_back(std::move(system));
        }
    }
    return systems;
}

void for_each_value(Database &database, const Selection &selection,
                    const std::function<void(const ExportRecord &)> &visit) {
    const Clause clause = clause_of(database, selection);
    Statement query = database.prepare(
        "SELECT m.id, c.name, c.smiles, ifnull(c.cas, ''), s.name, m.quantity, m.value, "
        "m.uncertainty, r.name, r.date, r.operator, r.instrument, m.source, m.note FROM " +
        std::string(kHeldValues) + "JOIN compound AS c ON c.id = m.compound_id WHERE " +
        clause.sql + " ORDER BY m.id");
    clause.bind(query);
    while (query.step()) {
        visit(read_record(query, database));
    }
}

} // namespace cospot::library
