#pragma once

#include "library/database.h"

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace cospot::library {

/// What the structure of a compound says about it, of its uncharged form; units as in the schema.
struct Description {
    double crippen_logp = 0.0;
    double molar_refractivity = 0.0; ///< cm3/mol
    double polar_surface = 0.0;      ///< square angstrom
    double labute_surface = 0.0;     ///< square angstrom
    int hydrogen_bond_donors = 0;
    int hydrogen_bond_acceptors = 0;
    int rotatable_bonds = 0;
    int rings = 0;
    int aromatic_rings = 0;
    int heavy_atoms = 0;
    int formal_charge = 0;
    std::map<std::string, int> groups; ///< functional groups that occur, and how often
};

/// Stores what a compound that has no description says about itself.
void add_description(Database &database, CompoundId compound, const Description &description);

/// Takes away what the compound's structure said, when that turns out to be wrong.
void remove_description(Database &database, CompoundId compound);

/// Nothing for a compound that was learned before format 3 and not described since.
[[nodiscard]] std::optional<Description> description_of(Database &database, CompoundId compound);

/// Compounds without a description: id and SMILES.
[[nodiscard]] std::vector<std::pair<CompoundId, std::string>> undescribed(Database &database);

} // namespace cospot::library
