#include "descriptors/structure.h"

#include "descriptors/formula.h"
#include "descriptors/inchi.h"
#include "descriptors/molecule.h"
#include "descriptors/origin.h"
#include "descriptors/parent.h"
#include "descriptors/smiles_text.h"

#include <GraphMol/Descriptors/MolDescriptors.h>
#include <GraphMol/GraphMol.h>
#include <GraphMol/SmilesParse/SmilesWrite.h>
#include <fmt/format.h>

#include <algorithm>

namespace cospot::descriptors {

namespace {

/// Calls a function that throws InputErrors of its own, and names the origin in them.
template <typename Call> auto named_after(const Origin &origin, const Call &call) {
    try {
        return call();
    } catch (const InputError &error) {
        refuse(origin, error.found());
    }
}

bool reads_as(const std::string &smiles, const std::string &inchikey) {
    return inchikey_of(*molecule_of_smiles(smiles)) == inchikey;
}

/// RDKit's canonical SMILES. Of some symmetric rings with a centre left open (inositols) this
/// version writes one that reads as another stereoisomer; then the first that does not, in the
/// order in which the atoms stand.
std::string canonical_smiles(const Origin &origin, const RDKit::ROMol &molecule,
                             const std::string &inchikey) {
    std::string canonical = RDKit::MolToSmiles(molecule);
    const bool has_stereo = canonical.find_first_of("@/\\") != std::string::npos;
    if (!has_stereo || reads_as(canonical, inchikey)) {
        return canonical;
    }
    constexpr unsigned most_tries = 100; // each takes as long as reading a molecule
    for (unsigned first = 0; first < std::min(most_tries, molecule.getNumAtoms()); ++first) {
        std::string smiles =
            RDKit::MolToSmiles(molecule, /*doIsomericSmiles=*/true, /*doKekule=*/false,
                               static_cast<int>(first), /*canonical=*/false);
        if (reads_as(smiles, inchikey)) {
            return smiles;
        }
    }
    refuse(origin, "no SMILES tells its stereochemistry");
}

Structure described(const Origin &origin, const RDKit::ROMol &molecule) {
    Structure result;
    const Inchi inchi = named_after(origin, [&] { return inchi_of(molecule); });
    result.inchikey = inchi.key;
    result.has_unassigned_stereo = inchi.has_open_stereo;
    const auto fragment = parent_of(molecule);
    const RDKit::ROMol &parent = fragment ? *fragment : molecule;
    result.parent_inchikey =
        fragment ? named_after(origin, [&] { return inchikey_of(parent); }) : inchi.key;
    result.tautomer = named_after(origin, [&] { return tautomer_hash_of(parent); });
    result.formula = hill_formula(molecule);
    result.average_mass = RDKit::Descriptors::calcAMW(molecule);
    result.monoisotopic_mass = RDKit::Descriptors::calcExactMW(molecule);
    result.smiles = canonical_smiles(origin, molecule, inchi.key);
    if (result.smiles.size() > longest_smiles) { // nobody could read it again
        refuse(origin, fmt::format("its SMILES has {} characters, more than {}",
                                   result.smiles.size(), longest_smiles));
    }
    result.parent_smiles =
        fragment ? canonical_smiles(origin, parent, result.parent_inchikey) : result.smiles;
    return result;
}

} // namespace

Structure read_smiles(std::string_view smiles) {
    const Origin origin = smiles_origin(smiles);
    return guarded(origin, [&] { return described(origin, *molecule_of_smiles(smiles)); });
}

std::string parent_smiles(std::string_view smiles) {
    return guarded(smiles_origin(smiles), [&] {
        const auto parent = parent_of(*molecule_of_smiles(smiles));
        return parent ? RDKit::MolToSmiles(*parent) : std::string(smiles);
    });
}

Structure read_mol_block(std::string_view block) {
    const Origin origin = mol_block_origin(block);
    return guarded(origin, [&] { return described(origin, *molecule_of_mol_block(block)); });
}

} // namespace cospot::descriptors
