#include "library/rename.h"

#include "library/column_runs.h"
#include "library/damage.h"
#include "library/names.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <vector>

namespace cospot::library {

namespace {

constexpr std::string_view kRename = "rename";

std::string system_words(const System &system) {
    std::string words =
        fmt::format("system {} ({}", in_quotes(system.name), in_words(system.technique));
    for (const std::string &part : {system.stationary_phase, system.mobile_phase}) {
        words += part.empty() ? "" : ", " + printable(part);
    }
    return words + ')';
}

std::string compound_words(const Compound &compound) {
    return "compound " + exact_words(compound);
}

/// Another compound that has the name and is in use; nothing: none.
std::optional<Compound> namesake_in_use(Database &database, const std::string &name,
                                        std::optional<CompoundId> compound) {
    for (const Compound &other : all_by_name(database, name)) {
        if (compound != other.id && !other.retired) {
            return other;
        }
    }
    return std::nullopt;
}

/// What else in the library has the name; nothing: nobody.
std::optional<std::string> holder_of(Database &database, const std::string &name,
                                     std::optional<CompoundId> compound,
                                     std::optional<SystemId> system) {
    if (const auto other = namesake_in_use(database, name, compound)) {
        return compound_words(*other);
    }
    if (const auto other = find_system(database, name); other && system != other->id) {
        return system_words(*other);
    }
    if (const auto column = find_column(database, name)) {
        return "column " + in_quotes(column->name);
    }
    return std::nullopt;
}

[[noreturn]] void refuse_new_name(const Rename &wanted, const std::string &renamed,
                                  const std::string &holder) {
    throw InputError(wanted.new_where,
                     fmt::format("{} for {}: {} has that name already", in_quotes(wanted.new_name),
                                 renamed, holder),
                     "a name that nothing else in the library has");
}

void check_changes(const Rename &wanted, const std::string &name) {
    if (wanted.new_name == name) {
        throw InputError(wanted.new_where, in_quotes(name) + ", the name that it has",
                         "another name");
    }
}

/// "REASON (what)", or what where no reason was given.
std::string with_reason(const std::string &reason, const std::string &what) {
    return reason.empty() ? what : fmt::format("{} ({})", reason, what);
}

std::string name_words(std::string_view kind, const std::string &before, const std::string &now) {
    return fmt::format("{} {} is now {}", kind, in_quotes(before), in_quotes(now));
}

void give_name(Database &database, const Compound &compound, const std::string &name,
               ChangeId change) {
    database.cached("DELETE FROM synonym WHERE compound_id = ?1 AND name = ?2")
        .bind(1, compound.id)
        .bind(2, name)
        .run();
    database.cached("UPDATE compound SET name = ?2 WHERE id = ?1")
        .bind(1, compound.id)
        .bind(2, name)
        .run();
    if (!namesake_in_use(database, compound.name, compound.id)) {
        (void)add_synonym(database, compound.id, compound.name, change);
    }
}

void check_structure_is_new(Database &database, const Compound &compound,
                            const CorrectedStructure &structure) {
    if (structure.compound.inchikey == compound.inchikey) {
        throw InputError(structure.where,
                         in_quotes(structure.compound.smiles) + ", the structure that " +
                             in_quotes(compound.name) + " has",
                         "another structure");
    }
    if (const auto other = find_by_inchikey(database, structure.compound.inchikey)) {
        throw InputError(structure.where,
                         fmt::format("{} for {}: that structure is {} already",
                                     in_quotes(structure.compound.smiles), compound_words(compound),
                                     compound_words(*other)),
                         "a structure that no other compound of the library has; where both are "
                         "one compound, export the values of the wrong one, learn them with the "
                         "right structure, and retire the wrong one");
    }
}

void keep_former(Database &database, const Compound &compound, ChangeId change) {
    database
        .cached("INSERT INTO former_structure (compound_id, inchikey, smiles, formula, change_id) "
                "VALUES (?1, ?2, ?3, ?4, ?5)")
        .bind(1, compound.id)
        .bind(2, compound.inchikey)
        .bind(3, compound.smiles)
        .bind(4, compound.formula)
        .bind(5, change)
        .run();
}

void give_structure(Database &database, CompoundId id, const CorrectedStructure &structure) {
    const Compound &now = structure.compound;
    database
        .cached("UPDATE compound SET inchikey = ?2, parent_inchikey = ?3, tautomer = ?4, "
                "smiles = ?5, formula = ?6, average_mass = ?7, monoisotopic_mass = ?8, "
                "open_stereo = ?9 WHERE id = ?1")
        .bind(1, id)
        .bind(2, now.inchikey)
        .bind(3, now.parent_inchikey)
        .bind(4, now.tautomer)
        .bind(5, now.smiles)
        .bind(6, now.formula)
        .bind(7, now.average_mass)
        .bind(8, now.monoisotopic_mass)
        .bind(9, static_cast<std::int64_t>(now.open_stereo))
        .run();
    remove_description(database, id);
    if (structure.description) {
        add_description(database, id, *structure.description);
    }
}

/// "compound "anisol" is now "anisole"; its structure "C" (KEY) is now "CC" (KEY)"
std::string compound_change_words(const Rename &wanted, const Compound &before,
                                  const std::optional<CorrectedStructure> &structure) {
    std::string words = wanted.new_name.empty()
                            ? "compound " + in_quotes(before.name)
                            : name_words("compound", before.name, wanted.new_name);
    if (structure) {
        words +=
            fmt::format("{} {} ({}) is now {} ({})",
                        wanted.new_name.empty() ? ": structure" : "; its structure", before.smiles,
                        before.inchikey, structure->compound.smiles, structure->compound.inchikey);
    }
    return words;
}

} // namespace

RenamedCompound rename_compound(Database &database, const Rename &wanted,
                                const std::optional<CorrectedStructure> &structure) {
    Transaction transaction(database);
    const Compound before = compound_named(database, wanted.name, wanted.where);
    if (!wanted.new_name.empty()) {
        check_changes(wanted, before.name);
        if (const auto holder = holder_of(database, wanted.new_name, before.id, std::nullopt)) {
            refuse_new_name(wanted, compound_words(before), *holder);
        }
    }
    if (structure) {
        check_structure_is_new(database, before, *structure);
    }
    const ChangeId change =
        begin_change(database, kRename,
                     with_reason(wanted.reason, compound_change_words(wanted, before, structure)));
    note_subject(database, change, before.id);
    if (!wanted.new_name.empty()) {
        give_name(database, before, wanted.new_name, change);
    }
    if (structure) {
        keep_former(database, before, change);
        give_structure(database, before.id, *structure);
    }
    RenamedCompound renamed{before, sound(find_compound(database, before.id), database),
                            namesake_in_use(database, before.name, before.id)};
    transaction.commit();
    return renamed;
}

RenamedSystem rename_system(Database &database, const Rename &wanted) {
    Transaction transaction(database);
    const System before = system_named(database, wanted.name, wanted.where);
    check_changes(wanted, before.name);
    if (const auto holder = holder_of(database, wanted.new_name, std::nullopt, before.id)) {
        refuse_new_name(wanted, system_words(before), *holder);
    }
    const ChangeId change = begin_change(
        database, kRename,
        with_reason(wanted.reason, name_words("system", before.name, wanted.new_name)));
    note_subject(database, change, before.id);
    give_name(database, before, wanted.new_name, change);
    RenamedSystem renamed{before, sound(find_system(database, before.id), database)};
    transaction.commit();
    return renamed;
}

std::vector<FormerStructure> former_structures_of(Database &database, CompoundId compound) {
    Statement &query = database.cached(
        "SELECT inchikey, smiles, formula FROM former_structure WHERE compound_id = ?1 "
        "AND inchikey <> (SELECT inchikey FROM compound WHERE id = ?1) "
        "GROUP BY inchikey ORDER BY min(id)");
    query.bind(1, compound);
    std::vector<FormerStructure> structures;
    while (query.step()) {
        structures.push_back({query.text(0), query.text(1), query.text(2)});
    }
    query.reset();
    return structures;
}

std::optional<Compound> formerly_of(Database &database, const std::string &inchikey) {
    Statement &query = database.cached("SELECT compound_id FROM former_structure "
                                       "WHERE inchikey = ?1 ORDER BY id DESC LIMIT 1");
    std::optional<CompoundId> id;
    if (query.bind(1, inchikey).step()) {
        id = query.id<CompoundId>(0);
    }
    query.reset();
    return id ? find_compound(database, *id) : std::nullopt;
}

std::optional<Change> correction_of(Database &database, CompoundId compound,
                                    const std::string &inchikey) {
    Statement &query =
        database.cached("SELECT h.who, h.at_utc, h.detail FROM former_structure AS f "
                        "JOIN change AS h ON h.id = f.change_id WHERE "
                        "f.compound_id = ?1 AND f.inchikey = ?2 ORDER BY f.id DESC "
                        "LIMIT 1");
    std::optional<Change> change;
    if (query.bind(1, compound).bind(2, inchikey).step()) {
        change = Change{query.text(0), query.text(1), query.text(2)};
    }
    query.reset();
    return change;
}

} // namespace cospot::library
