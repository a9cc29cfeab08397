#include "descriptors/structure.h"

#include "descriptors/formula.h"
#include "descriptors/inchi.h"
#include "descriptors/parent.h"
#include "descriptors/smiles_text.h"
#include "shared/error.h"
#include "shared/text.h"

#include <GraphMol/Descriptors/MolDescriptors.h>
#include <GraphMol/GraphMol.h>
#include <GraphMol/MolOps.h>
#include <GraphMol/SanitException.h>
#include <GraphMol/SmilesParse/SmilesParse.h>
#include <GraphMol/SmilesParse/SmilesWrite.h>
#include <RDGeneral/RDLog.h>
#include <fmt/format.h>

#include <memory>
#include <new>

namespace cospot::descriptors {

namespace {

constexpr unsigned most_heavy_atoms = 500;

[[noreturn]] void refuse(std::string_view smiles, std::string_view reason) {
    throw InputError({}, fmt::format("{} ({})", in_quotes(smiles), reason),
                     "the SMILES of one compound");
}

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

/// Why a text of good syntax is no possible molecule; atoms count from 1 as they stand in the text.
std::string chemistry_fault(std::string_view smiles) {
    const auto molecule = parsed(smiles, /*sanitize=*/false);
    molecule->updatePropertyCache(/*strict=*/false);
    const auto problems = RDKit::MolOps::detectChemistryProblems(*molecule);
    if (problems.empty()) {
        return "no possible molecule";
    }
    const RDKit::MolSanitizeException &problem = *problems.front();
    if (const auto *valence = dynamic_cast<const RDKit::AtomValenceException *>(&problem)) {
        return named(*molecule, valence->getAtomIdx()) + " has more bonds than its valence allows";
    }
    if (const auto *aromatic = dynamic_cast<const RDKit::AtomKekulizeException *>(&problem)) {
        return named(*molecule, aromatic->getAtomIdx()) + " is written as aromatic outside a ring";
    }
    if (const auto *ring = dynamic_cast<const RDKit::KekulizeException *>(&problem);
        ring != nullptr && !ring->getAtomIndices().empty()) {
        return "no single and double bonds fit the aromatic ring of " +
               named(*molecule, ring->getAtomIndices().front());
    }
    return problem.what();
}

void check_contents(std::string_view smiles, const RDKit::ROMol &molecule) {
    for (const RDKit::Atom *atom : molecule.atoms()) {
        if (atom->getAtomicNum() == 0 || atom->hasQuery()) {
            refuse(smiles, "an atom is left open");
        }
    }
    for (const RDKit::Bond *bond : molecule.bonds()) {
        if (bond->hasQuery()) {
            refuse(smiles, "a bond is left open");
        }
    }
    if (molecule.getNumHeavyAtoms() > most_heavy_atoms) {
        refuse(smiles, fmt::format("it has {} heavy atoms, more than {}",
                                   molecule.getNumHeavyAtoms(), most_heavy_atoms));
    }
}

std::unique_ptr<RDKit::RWMol> molecule_of(std::string_view smiles) {
    if (const std::string fault = fault_before_parsing(smiles); !fault.empty()) {
        refuse(smiles, fault);
    }
    std::unique_ptr<RDKit::RWMol> molecule;
    try {
        molecule = parsed(smiles, /*sanitize=*/true);
    } catch (const RDKit::MolSanitizeException &) {
        refuse(smiles, chemistry_fault(smiles));
    }
    if (molecule == nullptr || molecule->getNumAtoms() == 0) {
        refuse(smiles, syntax_fault(smiles));
    }
    check_contents(smiles, *molecule);
    for (RDKit::Atom *atom : molecule->atoms()) {
        atom->setAtomMapNum(0); // bookkeeping of reactions, no part of the compound
    }
    return molecule;
}

Inchi inchi_for(std::string_view smiles, const RDKit::ROMol &molecule) {
    try {
        return inchi_of(molecule);
    } catch (const InputError &error) {
        refuse(smiles, error.found());
    }
}

/// RDKit's canonical SMILES. Of some symmetric rings with a centre left open (inositols) this
/// version writes one that reads as another stereoisomer; then the text as it was given stands.
std::string canonical_smiles(std::string_view given, const RDKit::ROMol &molecule,
                             const std::string &inchikey) {
    std::string canonical = RDKit::MolToSmiles(molecule);
    const bool has_stereo = canonical.find_first_of("@/\\") != std::string::npos;
    if (has_stereo && inchi_of(*parsed(canonical, /*sanitize=*/true)).key != inchikey) {
        return std::string(given);
    }
    return canonical;
}

Structure described(std::string_view smiles, const RDKit::ROMol &molecule) {
    Structure result;
    const Inchi inchi = inchi_for(smiles, molecule);
    result.inchikey = inchi.key;
    result.has_unassigned_stereo = inchi.has_open_stereo;
    const auto parent = parent_of(molecule);
    result.parent_inchikey = parent ? inchi_for(smiles, *parent).key : inchi.key;
    result.formula = hill_formula(molecule);
    result.average_mass = RDKit::Descriptors::calcAMW(molecule);
    result.monoisotopic_mass = RDKit::Descriptors::calcExactMW(molecule);
    result.smiles = canonical_smiles(smiles, molecule, inchi.key);
    return result;
}

void silence_log() {
    [[maybe_unused]] static const bool silent = [] {
        boost::logging::disable_logs("rdApp.*");
        return true;
    }();
}

} // namespace

Structure read_smiles(std::string_view smiles) {
    silence_log();
    try {
        return described(smiles, *molecule_of(smiles));
    } catch (const InputError &) {
        throw;
    } catch (const std::bad_alloc &) {
        throw;
    } catch (const std::exception &error) { // RDKit's own checks, met with odd input only
        refuse(smiles, std::string("RDKit cannot handle it: ") + error.what());
    }
}

} // namespace cospot::descriptors
