#include "library/selection.h"

#include "library/damage.h"

#include <initializer_list>
#include <utility>
#include <variant>

namespace cospot::library {

namespace {

using Parameter = std::variant<std::string, double>;

/// A WHERE clause of fixed texts with its parameters, in the order of their question marks.
struct Clause {
    std::string sql = "1";
    std::vector<Parameter> parameters;

    void add(const char *condition, std::initializer_list<Parameter> values) {
        sql += " AND ";
        sql += condition;
        parameters.insert(parameters.end(), values);
    }
    void bind(Statement &statement) const {
        int index = 0;
        for (const Parameter &parameter : parameters) {
            ++index;
            std::visit([&](const auto &value) { statement.bind(index, value); }, parameter);
        }
    }
};

/// Comes behind every text that starts with `start`.
std::string end_of_range(const std::string &start) {
    return start + "\xF4\x8F\xBF\xBF";
}

/// The LIKE pattern of texts that hold `part`.
std::string pattern_of(const std::string &part) {
    std::string pattern = "%";
    for (const char c : part) {
        if (c == '%' || c == '_' || c == '!') {
            pattern += '!';
        }
        pattern += c;
    }
    return pattern + '%';
}

void narrow_compounds(Clause &clause, const Selection &selection) {
    if (!selection.name_part.empty()) {
        const std::string pattern = pattern_of(selection.name_part);
        clause.add("c.id IN (SELECT id FROM compound WHERE name LIKE ? ESCAPE '!' UNION "
                   "SELECT compound_id FROM synonym WHERE name LIKE ? ESCAPE '!')",
                   {pattern, pattern});
    }
    if (selection.mass_low) {
        clause.add("c.monoisotopic_mass >= ?", {*selection.mass_low});
    }
    if (selection.mass_high) {
        clause.add("c.monoisotopic_mass <= ?", {*selection.mass_high});
    }
}

/// The name of the wanted system as the library writes it.
std::string name_of_system(Database &database, const Selection &selection) {
    const auto system =
        selection.system.empty() ? std::nullopt : find_system(database, selection.system);
    return system ? system->name : selection.system;
}

void narrow_systems(Clause &clause, Database &database, const Selection &selection) {
    if (selection.technique) {
        clause.add("s.technique = ?", {std::string(to_text(*selection.technique))});
    }
    if (!selection.system.empty()) {
        clause.add("s.name = ?", {name_of_system(database, selection)});
    }
}

void narrow_dates(Clause &clause, const Selection &selection) {
    if (!selection.date_from.empty()) {
        clause.add("r.date >= ?", {selection.date_from});
    }
    if (!selection.date_to.empty()) {
        clause.add("r.date <> '' AND r.date < ?", {end_of_range(selection.date_to)});
    }
}

Clause clause_for_compounds(Database &database, const Selection &selection) {
    Clause clause;
    narrow_compounds(clause, selection);
    narrow_systems(clause, database, selection);
    narrow_dates(clause, selection);
    return clause;
}

/// Values that hold, with their compound, system and run.
constexpr std::string_view kHeldValues =
    " measurement AS m JOIN system AS s ON s.id = m.system_id JOIN run AS r ON r.id = m.run_id "
    "AND m.superseded_by IS NULL AND m.retired_change_id IS NULL AND s.retired_change_id IS NULL ";

/// The SQL of a list of compounds. Where values narrow it, it starts from them; else it counts the
/// values of each selected compound, so that it need not look at any other value.
std::string compounds_sql(const Selection &selection, const Clause &clause) {
    const std::string order = " ORDER BY c.name, c.id";
    if (selection.narrows_values()) {
        return "SELECT c.id, count(m.id), count(DISTINCT m.system_id) FROM" +
               std::string(kHeldValues) + "JOIN compound AS c ON c.id = m.compound_id WHERE " +
               clause.sql + " GROUP BY c.id" + order;
    }
    const auto counted = [](const std::string &what) {
        return "(SELECT count(" + what +
               ") FROM measurement AS m WHERE m.compound_id = c.id AND "
               "m.superseded_by IS NULL AND m.retired_change_id IS NULL)";
    };
    return "SELECT c.id, " + counted("*") + ", " + counted("DISTINCT m.system_id") +
           " FROM compound AS c WHERE " + clause.sql + order;
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
    const Clause clause = clause_for_compounds(database, selection);
    Statement query =
        database.prepare(selection.narrows_values()
                             ? "SELECT count(DISTINCT c.id) FROM" + std::string(kHeldValues) +
                                   "JOIN compound AS c ON c.id = m.compound_id WHERE " + clause.sql
                             : "SELECT count(*) FROM compound AS c WHERE " + clause.sql);
    clause.bind(query);
    return query.step() ? static_cast<std::size_t>(query.integer(0)) : 0;
}

void for_each_compound(Database &database, const Selection &selection,
                       const std::function<void(const Compound &, const Counts &)> &visit) {
    const Clause clause = clause_for_compounds(database, selection);
    Statement query = database.prepare(compounds_sql(selection, clause));
    clause.bind(query);
    while (query.step()) {
        visit(sound(find_compound(database, query.id<CompoundId>(0)), database),
              {query.integer(1), query.integer(2)});
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
    Clause clause;
    narrow_compounds(clause, selection);
    narrow_systems(clause, database, selection);
    narrow_dates(clause, selection);
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
