#include "library/compounds.h"

#include <algorithm>
#include <cstddef>
#include <utility>

namespace cospot::library {

namespace {

#define COMPOUND_COLUMNS                                                                           \
    "id, inchikey, parent_inchikey, smiles, name, ifnull(cas, ''), formula, average_mass, "        \
    "monoisotopic_mass, open_stereo, tautomer, retired_change_id IS NOT NULL"

Compound read_row(const Statement &row) {
    Compound compound;
    compound.id = row.id<CompoundId>(0);
    compound.inchikey = row.text(1);
    compound.parent_inchikey = row.text(2);
    compound.smiles = row.text(3);
    compound.name = row.text(4);
    compound.cas = row.text(5);
    compound.formula = row.text(6);
    compound.average_mass = row.real(7);
    compound.monoisotopic_mass = row.real(8);
    compound.open_stereo = row.integer(9) != 0;
    compound.tautomer = row.text(10);
    compound.retired = row.integer(11) != 0;
    return compound;
}

std::optional<Compound> read_one(Statement &query) {
    std::optional<Compound> found;
    if (query.step()) {
        found = read_row(query);
    }
    query.reset();
    return found;
}

} // namespace

CompoundId add_compound(Database &database, const Compound &compound, ChangeId change) {
    database
        .cached("INSERT INTO compound (inchikey, parent_inchikey, smiles, name, cas, formula, "
                "average_mass, monoisotopic_mass, open_stereo, change_id, tautomer) "
                "VALUES (?1, ?2, ?3, ?4, nullif(?5, ''), ?6, ?7, ?8, ?9, ?10, ?11)")
        .bind(1, compound.inchikey)
        .bind(2, compound.parent_inchikey)
        .bind(3, compound.smiles)
        .bind(4, compound.name)
        .bind(5, compound.cas)
        .bind(6, compound.formula)
        .bind(7, compound.average_mass)
        .bind(8, compound.monoisotopic_mass)
        .bind(9, static_cast<std::int64_t>(compound.open_stereo))
        .bind(10, change)
        .bind(11, compound.tautomer)
        .run();
    return database.last_insert_id<CompoundId>();
}

bool add_synonym(Database &database, CompoundId compound, std::string_view name, ChangeId change) {
    Statement &known =
        database.cached("SELECT 1 FROM compound WHERE id = ?1 AND name = ?2 UNION "
                        "SELECT 1 FROM synonym WHERE compound_id = ?1 AND name = ?2");
    const bool is_known = known.bind(1, compound).bind(2, name).step();
    known.reset();
    if (!is_known) {
        database.cached("INSERT INTO synonym (compound_id, name, change_id) VALUES (?1, ?2, ?3)")
            .bind(1, compound)
            .bind(2, name)
            .bind(3, change)
            .run();
    }
    return !is_known;
}

void set_cas(Database &database, CompoundId compound, std::string_view cas) {
    database.cached("UPDATE compound SET cas = ?2 WHERE id = ?1 AND cas IS NULL")
        .bind(1, compound)
        .bind(2, cas)
        .run();
}

void set_tautomer(Database &database, CompoundId compound, std::string_view tautomer) {
    database.cached("UPDATE compound SET tautomer = ?2 WHERE id = ?1 AND tautomer = ''")
        .bind(1, compound)
        .bind(2, tautomer)
        .run();
}

std::optional<Compound> find_compound(Database &database, CompoundId id) {
    return read_one(
        database.cached("SELECT " COMPOUND_COLUMNS " FROM compound WHERE id = ?1").bind(1, id));
}

std::optional<Compound> find_by_inchikey(Database &database, std::string_view inchikey) {
    return read_one(database.cached("SELECT " COMPOUND_COLUMNS " FROM compound WHERE inchikey = ?1")
                        .bind(1, inchikey));
}

std::vector<CompoundId> in_order_of_inchikeys(Database &database, std::vector<CompoundId> ids) {
    Statement &query = database.cached("SELECT inchikey FROM compound WHERE id = ?1");
    std::vector<std::pair<std::string, CompoundId>> keyed;
    keyed.reserve(ids.size());
    for (const CompoundId id : ids) {
        query.bind(1, id);
        keyed.emplace_back(query.step() ? query.text(0) : std::string(), id);
        query.reset();
    }
    std::sort(keyed.begin(), keyed.end());
    for (std::size_t i = 0; i < ids.size(); ++i) {
        ids[i] = keyed[i].second;
    }
    return ids;
}

std::vector<Compound> all_by_name(Database &database, std::string_view name) {
    Statement &query = database.cached(
        "SELECT " COMPOUND_COLUMNS " FROM compound WHERE name = ?1 OR cas = ?1 OR inchikey = ?1 "
        "UNION SELECT " COMPOUND_COLUMNS " FROM compound WHERE id IN "
        "(SELECT compound_id FROM synonym WHERE synonym.name = ?1)");
    query.bind(1, name);
    std::vector<Compound> found;
    while (query.step()) {
        found.push_back(read_row(query));
    }
    query.reset();
    return found;
}

std::vector<Compound> find_by_name(Database &database, std::string_view name) {
    std::vector<Compound> found = all_by_name(database, name);
    if (std::any_of(found.begin(), found.end(), [](const auto &one) { return !one.retired; })) {
        std::erase_if(found, [&](const Compound &one) {
            return one.retired && one.inchikey != name; // a key names one compound exactly
        });
    }
    return found;
}

std::vector<std::string> synonyms_of(Database &database, CompoundId compound) {
    Statement &query =
        database.cached("SELECT name FROM synonym WHERE compound_id = ?1 ORDER BY name");
    query.bind(1, compound);
    std::vector<std::string> names;
    while (query.step()) {
        names.push_back(query.text(0));
    }
    query.reset();
    return names;
}

} // namespace cospot::library
