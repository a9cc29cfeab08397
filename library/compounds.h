#pragma once

#include "library/database.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot::library {

/// A structure with its names. The standard InChIKey tells structures apart.
struct Compound {
    CompoundId id{};                ///< in the library
    std::string inchikey;           ///< 27 characters
    std::string parent_inchikey;    ///< of the uncharged parent: a salt and its free base share it
    std::string tautomer{};         ///< the same for tautomers; empty: learned before format 2
    std::string smiles;             ///< canonical
    std::string name;               ///< the name under which it was first learned
    std::string cas;                ///< registry number, or empty
    std::string formula;            ///< Hill order
    double average_mass = 0.0;      ///< g/mol
    double monoisotopic_mass = 0.0; ///< Da
    bool open_stereo = false;       ///< a stereocentre or double bond is not given
    bool retired = false;           ///< withdrawn with all its values, and no candidate
};

/// Stores a compound that the library does not hold yet and returns its id.
CompoundId add_compound(Database &database, const Compound &compound, ChangeId change);

/// Adds a further name unless the compound bears it already; returns whether it was new.
bool add_synonym(Database &database, CompoundId compound, std::string_view name, ChangeId change);

/// Sets the registry number of a compound that has none.
void set_cas(Database &database, CompoundId compound, std::string_view cas);

/// Sets what a compound shares with its tautomers where that is not known yet.
void set_tautomer(Database &database, CompoundId compound, std::string_view tautomer);

[[nodiscard]] std::optional<Compound> find_compound(Database &database, CompoundId id);
[[nodiscard]] std::optional<Compound> find_by_inchikey(Database &database,
                                                       std::string_view inchikey);
/// These compounds in the order of their InChIKeys, which does not depend on when they were learned
/// as that of the ids does.
[[nodiscard]] std::vector<CompoundId> in_order_of_inchikeys(Database &database,
                                                            std::vector<CompoundId> ids);
/// All compounds of that name or synonym (case of ASCII letters ignored), registry number or
/// InChIKey, retired ones among them.
[[nodiscard]] std::vector<Compound> all_by_name(Database &database, std::string_view name);
/// The same, without the retired ones where a compound in use has the name, too.
[[nodiscard]] std::vector<Compound> find_by_name(Database &database, std::string_view name);
/// Names besides the first.
[[nodiscard]] std::vector<std::string> synonyms_of(Database &database, CompoundId compound);

} // namespace cospot::library
