#include "library/selection_clause.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace cospot::library {

namespace {

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
    if (selection.only) {
        clause.add("c.id IN (SELECT value FROM json_each(?))",
                   {fmt::format("[{}]", fmt::join(*selection.only, ","))});
    }
    if (selection.mass_low) {
        clause.add("c.monoisotopic_mass >= ?", {*selection.mass_low});
    }
    if (selection.mass_high) {
        clause.add("c.monoisotopic_mass <= ?", {*selection.mass_high});
    }
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

} // namespace

void Clause::add(const char *condition, std::initializer_list<Parameter> values) {
    sql += " AND ";
    sql += condition;
    parameters.insert(parameters.end(), values);
}

int Clause::bind(Statement &statement) const {
    int next = 1;
    for (const Parameter &parameter : parameters) {
        std::visit([&](const auto &value) { statement.bind(next, value); }, parameter);
        ++next;
    }
    return next;
}

std::string name_of_system(Database &database, const Selection &selection) {
    const auto system =
        selection.system.empty() ? std::nullopt : find_system(database, selection.system);
    return system ? system->name : selection.system;
}

void narrow(Clause &clause, Database &database, const Selection &selection) {
    narrow_compounds(clause, selection);
    narrow_systems(clause, database, selection);
    narrow_dates(clause, selection);
}

} // namespace cospot::library
