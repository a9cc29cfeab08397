#include "expectation/asked_compounds.h"

#include "library/compounds.h"
#include "readers/structure_list.h"
#include "structures/structure_service.h"

namespace cospot {

namespace {

/// A structure as it was read; it is looked up in the library.
AskedCompound asked_structure(const std::string &name, const std::string &smiles,
                              const std::string &inchikey, library::Database &database) {
    const auto held = library::find_by_inchikey(database, inchikey);
    return {name, smiles, inchikey, held ? std::optional(held->id) : std::nullopt};
}

AskedCompound asked_by_mol_block(const CompoundRow &row, library::Database &database) {
    try {
        const auto structure = structure_service().read_mol_block(row.mol_block);
        return asked_structure(row.compound, structure.smiles, structure.inchikey, database);
    } catch (const InputError &error) {
        throw InputError(row.where, error.found(), error.expected());
    }
}

} // namespace

AskedCompound asked_by_structure(const std::string &name, const std::string &smiles,
                                 const Where &where, library::Database &database) {
    try {
        return asked_structure(name, smiles, structure_service().read_smiles(smiles).inchikey,
                               database);
    } catch (const InputError &error) {
        throw InputError(where, error.found(), error.expected());
    }
}

std::vector<AskedCompound> asked_in_file(InputFile &file, library::Database &database) {
    std::vector<AskedCompound> compounds;
    for (const CompoundRow &row : read_structures(file)) {
        compounds.push_back(row.mol_block.empty() ? asked_by_structure(row.compound, row.smiles,
                                                                       row.at("smiles"), database)
                                                  : asked_by_mol_block(row, database));
    }
    return compounds;
}

} // namespace cospot
