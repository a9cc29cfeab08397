#include "expectation/compound_profile.h"

#include "structures/structure_service.h"

namespace cospot {

CompoundProfile profile_of(const AskedCompound &compound) {
    const descriptors::Api &service = structure_service();
    CompoundProfile profile;
    profile.compound = compound;
    profile.structure = service.read_smiles(compound.smiles);
    profile.descriptors = service.describe(profile.structure.parent_smiles);
    profile.groups = occurring_groups(profile.descriptors);
    profile.boiling = service.boiling_points(compound.smiles);
    profile.adsorption = service.silica_adsorption(profile.structure.parent_smiles);
    return profile;
}

} // namespace cospot
