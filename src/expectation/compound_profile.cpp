#include "expectation/compound_profile.h"

#include "structures/structure_service.h"

namespace cospot {

CompoundProfile profile_of(const AskedCompound &compound) {
    const descriptors::Api &service = structure_service();
    CompoundProfile profile;
    profile.compound = compound;
    profile.structure = service.read_smiles(compound.smiles);
    profile.descriptors = service.describe(profile.structure.parent_smiles);
    const auto &groups = service.functional_groups();
    for (std::size_t i = 0; i < groups.size(); ++i) {
        if (profile.descriptors.groups[i] > 0) {
            profile.groups.emplace_back(groups[i].name, profile.descriptors.groups[i]);
        }
    }
    profile.boiling = service.boiling_points(compound.smiles);
    profile.adsorption = service.silica_adsorption(profile.structure.parent_smiles);
    return profile;
}

} // namespace cospot
