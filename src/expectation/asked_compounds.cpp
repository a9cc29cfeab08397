#include "expectation/asked_compounds.h"

#include "library/compounds.h"
#include "readers/structure_list.h"
#include "structures/structure_service.h"

namespace cospot {

AskedCompound asked_by_structure(const std::string &name, const std::string &smiles,
                                 const Where &where, library::Database &database) {
    try {
        const std::string inchikey = structure_service().read_smiles(smiles).inchikey;
        const auto held = library::find_by_inchikey(database, inchikey);
        return {name, smiles, inchikey, held ? std::optional(held->id) : std::nullopt};
    } catch (const InputError &error) {
        throw InputError(where, error.found(), error.expected());
    }
}

std::vector<AskedCompound> asked_in_file(InputFile &file, library::Database &database) {
    std::vector<AskedCompound> asked;
    for (const CompoundRow &row : read_structures(file)) {
        asked.push_back(asked_by_structure(row.compound, row.smiles, row.at("smiles"), database));
    }
    return asked;
}

} // namespace cospot
