#pragma once

#include <string>
#include <string_view>

namespace cospot::descriptors {

/// What a structure says about itself. Tell structures apart by `inchikey`, not by `smiles`:
/// tautomers that InChI counts as one compound share the key, and the SMILES depends on the version
/// of RDKit that wrote it.
struct Structure {
    /// Canonical isomeric SMILES, as RDKit writes it; one in another order of atoms for the rare
    /// symmetric ring of which RDKit would write another stereoisomer. Always reads as the same
    /// `inchikey`.
    std::string smiles;
    std::string inchikey; ///< standard InChIKey, 27 characters
    /// InChIKey of the largest organic fragment with its charges neutralised: a salt, a hydrate and
    /// their free base or acid share it. Equal to `inchikey` where no such fragment exists (an
    /// inorganic compound) and for complexes in which nitrogen or carbon holds a metal.
    std::string parent_inchikey;
    std::string parent_smiles; ///< canonical SMILES of that fragment, or `smiles`
    /// 14 letters that tautomers share, made of the parent (above) and blind to stereochemistry and
    /// isotopes. Beyond the mobile hydrogens on nitrogen, oxygen and sulfur that the InChIKey
    /// itself merges (2-pyridone, imidazoles, guanidines, amides) it merges keto and enol forms of
    /// 1,3-dicarbonyls, ring ketones and other non-terminal enols, phenols drawn as dienones, and
    /// hydrazone with azo forms. It does not merge the CH2= enol of a methyl ketone, imine with
    /// enamine, nitro with aci forms, nor oximes with nitroso compounds. It does merge hydroxy
    /// ketones that share an enediol though both can be bought (open-chain glucose and fructose):
    /// an equal hash asks for a look, it does not prove two entries to be one.
    std::string tautomer;
    std::string formula;       ///< of all fragments together, Hill order, charge at the end
    double average_mass = 0.0; ///< g/mol, IUPAC standard atomic weights or the stated isotopes
    /// Da, of the most abundant or the stated isotopes, corrected for the electrons of an ion.
    double monoisotopic_mass = 0.0;
    /// A stereocentre or double bond that could be given is left open, by the rules of InChI: none
    /// where a mobile hydrogen makes the two forms one (guanidines). Axial chirality is not read:
    /// allenes that have it count as open, atropisomers as closed.
    bool has_unassigned_stereo = false;
};

/// Reads one compound (one or several fragments) from SMILES. May be called from several threads.
/// Throws InputError with an empty Where for text that is empty, has blanks, a name or extensions
/// after the SMILES, leaves atoms or bonds open (`*`, `~`), is longer than 2000 characters (also
/// written anew), has more than 500 heavy atoms or 15000 chains of four atoms, or is no SMILES or
/// no possible molecule; `found` quotes the text and says why in plain words. Source of the
/// language: D. Weininger, J. Chem. Inf. Comput. Sci. 1988, 28, 31, as RDKit reads it.
[[nodiscard]] Structure read_smiles(std::string_view smiles);

/// As `Structure::parent_smiles`, without the rest, which takes several times longer; what is its
/// own parent comes back as written.
[[nodiscard]] std::string parent_smiles(std::string_view smiles);

/// Reads one compound from one MDL mol block (CTfile format, V2000 or V3000), from its title line
/// to "M  END"; refuses and throws as `read_smiles` does, and refuses what stands behind the end,
/// query atoms and bonds, polymers and mixtures. Stereochemistry comes from the wedges and from how
/// double bonds are drawn (from the coordinates where they are three-dimensional); wavy bonds,
/// crossed double bonds and blocks without coordinates leave it open. Centres in a racemic or
/// relative stereo group (V3000) count as open; the chiral flag is not looked at.
[[nodiscard]] Structure read_mol_block(std::string_view block);

} // namespace cospot::descriptors
