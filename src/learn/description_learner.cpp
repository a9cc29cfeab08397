#include "learn/description_learner.h"

#include "shared/error.h"
#include "shared/interruption.h"
#include "shared/parallel.h"
#include "structures/structure_service.h"

#include <optional>
#include <string>
#include <vector>

namespace cospot {

library::Description described(const std::string &smiles) {
    const descriptors::Descriptors read = structure_service().describe_parent(smiles);
    library::Description description{.crippen_logp = read.crippen_logp,
                                     .molar_refractivity = read.crippen_molar_refractivity,
                                     .polar_surface = read.tpsa,
                                     .labute_surface = read.labute_surface,
                                     .hydrogen_bond_donors = read.hydrogen_bond_donors,
                                     .hydrogen_bond_acceptors = read.hydrogen_bond_acceptors,
                                     .rotatable_bonds = read.rotatable_bonds,
                                     .rings = read.rings,
                                     .aromatic_rings = read.aromatic_rings,
                                     .heavy_atoms = read.heavy_atoms,
                                     .formal_charge = read.formal_charge,
                                     .groups = {}};
    for (auto &[name, occurrences] : occurring_groups(read)) {
        description.groups.emplace(name, occurrences);
    }
    return description;
}

void describe_new_compounds(library::Database &database) {
    const auto compounds = library::undescribed(database);
    if (compounds.empty()) {
        return;
    }
    (void)structure_service(); // opened before several threads need it
    std::vector<std::optional<library::Description>> descriptions(compounds.size());
    for_each_in_parallel(compounds.size(), [&](std::size_t i) {
        if (is_interrupted()) {
            return;
        }
        try {
            descriptions[i] = described(compounds[i].second);
        } catch (const InputError &) {
            // A structure that this RDKit does not read any more stays without a description.
        }
    });
    check_interrupted();
    for (std::size_t i = 0; i < compounds.size(); ++i) {
        if (descriptions[i]) {
            library::add_description(database, compounds[i].first, *descriptions[i]);
        }
    }
}

} // namespace cospot
