#include "descriptors/molecule.h"

#include "descriptors/origin.h"
#include "descriptors/smiles_text.h"

#include <GraphMol/GraphMol.h>
#include <GraphMol/MolOps.h>
#include <GraphMol/SanitException.h>
#include <GraphMol/SmilesParse/SmilesParse.h>
#include <fmt/format.h>

namespace cospot::descriptors {

namespace {

constexpr int largest_mass_number = 300; // of oganesson, the heaviest element, 294 is known

constexpr unsigned most_heavy_atoms = 500;
constexpr unsigned most_atoms = 2000;
/// Indices count paths through the molecule one by one. A diamond of 500 atoms has 9000.
constexpr unsigned long most_chains = 15000;

std::unique_ptr<RDKit::RWMol> parsed(std::string_view smiles, bool sanitize) {
    RDKit::SmilesParserParams parameters;
    parameters.allowCXSMILES = false;
    parameters.parseName = false;
    parameters.sanitize = sanitize;
    parameters.removeHs = sanitize;
    return std::unique_ptr<RDKit::RWMol>(RDKit::SmilesToMol(std::string(smiles), parameters));
}

std::string named(const RDKit::ROMol &molecule, unsigned index) {
    return fmt::format("atom {} ({})", index + 1, molecule.getAtomWithIdx(index)->getSymbol());
}

/// Chains of four atoms, rings of three among them: for each bond, each pair of further neighbours.
unsigned long chains_of_four(const RDKit::ROMol &molecule) {
    unsigned long chains = 0;
    for (const RDKit::Bond *bond : molecule.bonds()) {
        const unsigned long before = bond->getBeginAtom()->getDegree() - 1;
        chains += before * (bond->getEndAtom()->getDegree() - 1);
    }
    return chains;
}

} // namespace

std::string chemistry_fault(RDKit::RWMol &unsanitized) {
    unsanitized.updatePropertyCache(/*strict=*/false);
    const auto problems = RDKit::MolOps::detectChemistryProblems(unsanitized);
    if (problems.empty()) {
        return "no possible molecule";
    }
    const RDKit::MolSanitizeException &problem = *problems.front();
    if (const auto *valence = dynamic_cast<const RDKit::AtomValenceException *>(&problem)) {
        return named(unsanitized, valence->getAtomIdx()) +
               " has more bonds than its valence allows";
    }
    if (const auto *aromatic = dynamic_cast<const RDKit::AtomKekulizeException *>(&problem)) {
        return named(unsanitized, aromatic->getAtomIdx()) +
               " is written as aromatic outside a ring";
    }
    if (const auto *ring = dynamic_cast<const RDKit::KekulizeException *>(&problem);
        ring != nullptr && !ring->getAtomIndices().empty()) {
        return "no single and double bonds fit the aromatic ring of " +
               named(unsanitized, ring->getAtomIndices().front());
    }
    return problem.what();
}

std::string contents_fault(const RDKit::ROMol &molecule) {
    for (const RDKit::Atom *atom : molecule.atoms()) {
        if (atom->getAtomicNum() == 0 || atom->hasQuery()) {
            return "an atom is left open";
        }
        const auto mass_number = static_cast<int>(atom->getIsotope());
        if (mass_number != 0 &&
            (mass_number < atom->getAtomicNum() || mass_number > largest_mass_number)) {
            return fmt::format("there is no isotope {} of {}", mass_number, atom->getSymbol());
        }
    }
    for (const RDKit::Bond *bond : molecule.bonds()) {
        if (bond->hasQuery()) {
            return "a bond is left open";
        }
    }
    if (molecule.getNumHeavyAtoms() > most_heavy_atoms) {
        return fmt::format("it has {} heavy atoms, more than {}", molecule.getNumHeavyAtoms(),
                           most_heavy_atoms);
    }
    if (molecule.getNumAtoms() > most_atoms) {
        return fmt::format("it has {} atoms, more than {}", molecule.getNumAtoms(), most_atoms);
    }
    if (const unsigned long chains = chains_of_four(molecule); chains > most_chains) {
        return fmt::format(
            "its atoms are bound to too many others: it has {} chains of four atoms, "
            "more than {}",
            chains, most_chains);
    }
    return {};
}

std::unique_ptr<RDKit::RWMol> molecule_of_smiles(std::string_view smiles) {
    const auto refused = [&](std::string_view reason) { refuse(smiles_origin(smiles), reason); };
    if (const std::string fault = fault_before_parsing(smiles); !fault.empty()) {
        refused(fault);
    }
    std::unique_ptr<RDKit::RWMol> molecule;
    try {
        molecule = parsed(smiles, /*sanitize=*/true);
    } catch (const RDKit::MolSanitizeException &) {
        refused(chemistry_fault(*parsed(smiles, /*sanitize=*/false)));
    }
    if (molecule == nullptr || molecule->getNumAtoms() == 0) {
        refused(syntax_fault(smiles));
    }
    if (const std::string fault = contents_fault(*molecule); !fault.empty()) {
        refused(fault);
    }
    for (RDKit::Atom *atom : molecule->atoms()) {
        atom->setAtomMapNum(0); // bookkeeping of reactions, no part of the compound
    }
    return molecule;
}

} // namespace cospot::descriptors
