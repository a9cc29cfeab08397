#include "descriptors/descriptors.h"

#include "descriptors/group_counts.h"
#include "descriptors/molecule.h"
#include "descriptors/origin.h"
#include "descriptors/parent.h"
#include "descriptors/topology.h"

#include <GraphMol/Descriptors/Crippen.h>
#include <GraphMol/Descriptors/MolDescriptors.h>
#include <GraphMol/GraphMol.h>
#include <GraphMol/MolOps.h>

#include <algorithm>
#include <array>

namespace cospot::descriptors {

namespace {

namespace rd = RDKit::Descriptors;

int halogens_in(const RDKit::ROMol &molecule) {
    constexpr std::array halogens{9, 17, 35, 53, 85};
    int count = 0;
    for (const RDKit::Atom *atom : molecule.atoms()) {
        count +=
            std::find(halogens.begin(), halogens.end(), atom->getAtomicNum()) != halogens.end();
    }
    return count;
}

int stereocentres_in(RDKit::ROMol &molecule) {
    RDKit::MolOps::assignStereochemistry(molecule, /*cleanIt=*/true, /*force=*/true,
                                         /*flagPossibleStereoCenters=*/true);
    return static_cast<int>(rd::numAtomStereoCenters(molecule));
}

Descriptors described(RDKit::ROMol &molecule) {
    Descriptors result;
    rd::calcCrippenDescriptors(molecule, result.crippen_logp, result.crippen_molar_refractivity);
    result.tpsa = rd::calcTPSA(molecule);
    result.labute_surface = rd::calcLabuteASA(molecule);
    result.hydrogen_bond_donors = static_cast<int>(rd::calcLipinskiHBD(molecule));
    result.hydrogen_bond_acceptors = static_cast<int>(rd::calcLipinskiHBA(molecule));
    result.rotatable_bonds = static_cast<int>(rd::calcNumRotatableBonds(molecule));
    result.rings = static_cast<int>(rd::calcNumRings(molecule));
    result.aromatic_rings = static_cast<int>(rd::calcNumAromaticRings(molecule));
    result.heavy_atoms = static_cast<int>(molecule.getNumHeavyAtoms());
    result.fraction_sp3 = rd::calcFractionCSP3(molecule);
    result.halogens = halogens_in(molecule);
    result.stereocentres = stereocentres_in(molecule);
    result.formal_charge = RDKit::MolOps::getFormalCharge(molecule);
    result.wiener_index = wiener_index(molecule);
    result.balaban_j = balaban_j(molecule);
    result.chi0v = rd::calcChi0v(molecule);
    result.chi1v = rd::calcChi1v(molecule);
    result.chi2v = rd::calcChi2v(molecule);
    result.chi3v = rd::calcChi3v(molecule);
    result.kappa1 = rd::calcKappa1(molecule);
    result.kappa2 = rd::calcKappa2(molecule);
    result.hall_kier_alpha = rd::calcHallKierAlpha(molecule);
    result.kier_flexibility = rd::calcPhi(molecule);
    result.groups = count_groups(molecule);
    return result;
}

struct Named {
    const char *name;
    double value;
};

/// The one list of members, for names and values alike.
std::array<Named, 24> scalars(const Descriptors &d) {
    const auto number = [](int value) { return static_cast<double>(value); };
    return {{
        {"crippen_logp", d.crippen_logp},
        {"crippen_molar_refractivity", d.crippen_molar_refractivity},
        {"tpsa", d.tpsa},
        {"labute_surface", d.labute_surface},
        {"hydrogen_bond_donors", number(d.hydrogen_bond_donors)},
        {"hydrogen_bond_acceptors", number(d.hydrogen_bond_acceptors)},
        {"rotatable_bonds", number(d.rotatable_bonds)},
        {"rings", number(d.rings)},
        {"aromatic_rings", number(d.aromatic_rings)},
        {"heavy_atoms", number(d.heavy_atoms)},
        {"fraction_sp3", d.fraction_sp3},
        {"halogens", number(d.halogens)},
        {"stereocentres", number(d.stereocentres)},
        {"formal_charge", number(d.formal_charge)},
        {"wiener_index", d.wiener_index},
        {"balaban_j", d.balaban_j},
        {"chi0v", d.chi0v},
        {"chi1v", d.chi1v},
        {"chi2v", d.chi2v},
        {"chi3v", d.chi3v},
        {"kappa1", d.kappa1},
        {"kappa2", d.kappa2},
        {"hall_kier_alpha", d.hall_kier_alpha},
        {"kier_flexibility", d.kier_flexibility},
    }};
}

std::vector<std::string> all_names() {
    std::vector<std::string> names;
    for (const Named &scalar : scalars({})) {
        names.emplace_back(scalar.name);
    }
    for (const FunctionalGroup &group : functional_groups()) {
        names.push_back("group_" + group.name);
    }
    return names;
}

} // namespace

Descriptors describe(std::string_view smiles) {
    return guarded(smiles_origin(smiles), [&] { return described(*molecule_of_smiles(smiles)); });
}

Descriptors describe_parent(std::string_view smiles) {
    return guarded(smiles_origin(smiles), [&] {
        const auto molecule = molecule_of_smiles(smiles);
        const auto parent = parent_of(*molecule);
        return described(parent ? *parent : *molecule);
    });
}

const std::vector<std::string> &descriptor_names() {
    static const std::vector<std::string> names = all_names();
    return names;
}

std::vector<double> as_vector(const Descriptors &descriptors) {
    std::vector<double> values;
    values.reserve(descriptor_names().size());
    for (const Named &scalar : scalars(descriptors)) {
        values.push_back(scalar.value);
    }
    values.insert(values.end(), descriptors.groups.begin(), descriptors.groups.end());
    values.resize(descriptor_names().size(), 0.0);
    return values;
}

} // namespace cospot::descriptors
