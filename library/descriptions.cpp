#include "library/descriptions.h"

namespace cospot::library {

void add_description(Database &database, CompoundId compound, const Description &description) {
    Statement &row =
        database.cached("INSERT INTO description VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    int parameter = 0;
    row.bind(++parameter, compound);
    for (const double value : {description.crippen_logp, description.molar_refractivity,
                               description.polar_surface, description.labute_surface}) {
        row.bind(++parameter, value);
    }
    for (const int value :
         {description.hydrogen_bond_donors, description.hydrogen_bond_acceptors,
          description.rotatable_bonds, description.rings, description.aromatic_rings,
          description.heavy_atoms, description.formal_charge}) {
        row.bind(++parameter, static_cast<std::int64_t>(value));
    }
    row.run();
    Statement &group = database.cached("INSERT INTO compound_group VALUES (?, ?, ?)");
    for (const auto &[name, occurrences] : description.groups) {
        group.bind(1, compound).bind(2, name).bind(3, static_cast<std::int64_t>(occurrences)).run();
    }
}

void remove_description(Database &database, CompoundId compound) {
    database.cached("DELETE FROM compound_group WHERE compound_id = ?").bind(1, compound).run();
    database.cached("DELETE FROM description WHERE compound_id = ?").bind(1, compound).run();
}

std::optional<Description> description_of(Database &database, CompoundId compound) {
    Statement &row = database.cached("SELECT * FROM description WHERE compound_id = ?");
    row.bind(1, compound);
    if (!row.step()) {
        row.reset();
        return std::nullopt;
    }
    Description description;
    int column = 0;
    for (double *value : {&description.crippen_logp, &description.molar_refractivity,
                          &description.polar_surface, &description.labute_surface}) {
        *value = row.real(++column);
    }
    for (int *value :
         {&description.hydrogen_bond_donors, &description.hydrogen_bond_acceptors,
          &description.rotatable_bonds, &description.rings, &description.aromatic_rings,
          &description.heavy_atoms, &description.formal_charge}) {
        *value = static_cast<int>(row.integer(++column));
    }
    row.reset();
    Statement &groups =
        database.cached("SELECT name, occurrences FROM compound_group WHERE compound_id = ?");
    groups.bind(1, compound);
    while (groups.step()) {
        description.groups.emplace(groups.text(0), static_cast<int>(groups.integer(1)));
    }
    groups.reset();
    return description;
}

std::vector<std::pair<CompoundId, std::string>> undescribed(Database &database) {
    Statement query = database.prepare("SELECT id, smiles FROM compound WHERE id NOT IN "
                                       "(SELECT compound_id FROM description) ORDER BY id");
    std::vector<std::pair<CompoundId, std::string>> compounds;
    while (query.step()) {
        compounds.emplace_back(query.id<CompoundId>(0), query.text(1));
    }
    return compounds;
}

} // namespace cospot::library
