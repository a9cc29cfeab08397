#include "descriptors/parent.h"

#include <GraphMol/GraphMol.h>
#include <GraphMol/MolOps.h>
#include <GraphMol/MolStandardize/Charge.h>
#include <GraphMol/MolStandardize/Fragment.h>
#include <GraphMol/MolStandardize/Metal.h>
#include <GraphMol/SmilesParse/SmilesParse.h>

#include <algorithm>
#include <array>
#include <vector>

namespace cospot::descriptors {

namespace {

using Molecule = std::unique_ptr<RDKit::ROMol>;

constexpr int carbon = 6;
constexpr int nitrogen = 7;

/// Alkali and alkaline-earth metals, lithium to barium, as `with_ionic_bonds_cut` lists them.
bool is_salt_metal(int element) {
    constexpr std::array salt_metals{3, 11, 12, 19, 20, 37, 38, 55, 56};
    return std::find(salt_metals.begin(), salt_metals.end(), element) != salt_metals.end();
}

/// Atomic numbers of the metals outside group 1.
bool is_polyvalent_metal(int element) {
    return element == 4 || element == 12 || element == 13 || (element >= 20 && element <= 31) ||
           (element >= 38 && element <= 50) || (element >= 56 && element <= 83) || element >= 88;
}

bool has_carbon(const RDKit::ROMol &molecule) {
    for (const RDKit::Atom *atom : molecule.atoms()) {
        if (atom->getAtomicNum() == carbon) {
            return true;
        }
    }
    return false;
}

/// Something to cut, to choose from or to neutralise.
bool has_parts_or_charges(const RDKit::ROMol &molecule) {
    for (const RDKit::Atom *atom : molecule.atoms()) {
        if (atom->getFormalCharge() != 0 || is_salt_metal(atom->getAtomicNum())) {
            return true;
        }
    }
    std::vector<int> fragment_of_atom;
    return RDKit::MolOps::getMolFrags(molecule, fragment_of_atom) > 1;
}

/// A polyvalent metal beside a carbanion or beside two anionic nitrogens of one fragment: drawn as
/// ions, yet held together. One such nitrogen alone (a saccharinate) makes a salt.
bool is_complex(const RDKit::ROMol &molecule) {
    std::vector<int> fragment_of_atom;
    std::vector<int> anionic_nitrogens(RDKit::MolOps::getMolFrags(molecule, fragment_of_atom));
    bool has_metal = false;
    bool has_carbanion = false;
    for (const RDKit::Atom *atom : molecule.atoms()) {
        const int element = atom->getAtomicNum();
        const bool anionic = atom->getFormalCharge() < 0;
        has_metal = has_metal || is_polyvalent_metal(element);
        has_carbanion = has_carbanion || (anionic && element == carbon);
        if (anionic && element == nitrogen) {
            ++anionic_nitrogens[static_cast<std::size_t>(fragment_of_atom[atom->getIdx()])];
        }
    }
    const bool chelates = std::any_of(anionic_nitrogens.begin(), anionic_nitrogens.end(),
                                      [](int count) { return count > 1; });
    return has_metal && (has_carbanion || chelates);
}

Molecule with_ionic_bonds_cut(const RDKit::ROMol &molecule) {
    const Molecule to_oxygen(RDKit::SmartsToMol("[Li,Na,K,Rb,Cs,Mg,Ca,Sr,Ba]~[O,F]"));
    const Molecule to_others(RDKit::SmartsToMol("[Li,Na,K,Rb,Cs,Mg,Ca,Sr,Ba]~[S,Cl,Br,I]"));
    RDKit::MolStandardize::MetalDisconnector disconnector;
    disconnector.setMetalNof(*to_oxygen);
    disconnector.setMetalNon(*to_others);
    return Molecule(disconnector.disconnect(molecule));
}

} // namespace

Molecule parent_of(const RDKit::ROMol &molecule) {
    if (!has_carbon(molecule) || !has_parts_or_charges(molecule) || is_complex(molecule)) {
        return nullptr;
    }
    const Molecule ions = with_ionic_bonds_cut(molecule);
    // RDKit checks the fragments again and loses them where it refuses one: refuse before it does.
    RDKit::RWMol checked(*ions);
    RDKit::MolOps::sanitizeMol(checked);
    RDKit::MolStandardize::LargestFragmentChooser chooser(/*preferOrganic=*/true);
    const Molecule fragment(chooser.choose(*ions));
    RDKit::MolStandardize::Uncharger uncharger;
    Molecule parent(uncharger.uncharge(*fragment));
    RDKit::MolOps::assignStereochemistry(*parent, /*cleanIt=*/true, /*force=*/true);
    return parent;
}

} // namespace cospot::descriptors
