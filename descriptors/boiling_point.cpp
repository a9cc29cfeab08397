#include "descriptors/boiling_point.h"

#include "descriptors/boiling_point_joback.h"
#include "descriptors/boiling_point_model.h"
#include "descriptors/boiling_point_stein_brown.h"
#include "descriptors/molecule.h"
#include "descriptors/origin.h"

#include <GraphMol/GraphMol.h>
#include <GraphMol/MolOps.h>

#include <vector>

namespace cospot::descriptors {

namespace {

BoilingPointEstimates estimated(const RDKit::ROMol &molecule) {
    std::vector<int> fragment_of_atom;
    if (RDKit::MolOps::getMolFrags(molecule, fragment_of_atom) > 1) {
        const BoilingPoint none{{}, {}, "several fragments: a salt or a mixture"};
        return {none, none, none};
    }
    return {joback_boiling_point(molecule), stein_brown_boiling_point(molecule),
            modelled_boiling_point(molecule)};
}

} // namespace

BoilingPointEstimates boiling_points(std::string_view smiles) {
    return guarded(smiles_origin(smiles), [&] { return estimated(*molecule_of_smiles(smiles)); });
}

} // namespace cospot::descriptors
