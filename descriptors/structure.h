#pragma once

#include <string>
#include <string_view>

namespace cospot::descriptors {

/// What a structure says about itself. Tell structures apart by `inchikey`, not by `smiles`:
/// tautomers that InChI counts as one compound share the key, and the SMILES depends on the version
/// of RDKit that wrote it.
struct Structure {
    /// Canonical isomeric SMILES, as RDKit writes it; the text that was read for the rare symmetric
    /// ring of which RDKit would write another stereoisomer. Always reads as the same `inchikey`.
    std::string smiles;
    std::string inchikey; ///< standard InChIKey, 27 characters
    /// InChIKey of the largest organic fragment with its charges neutralised: a salt, a hydrate and
    /// their free base or acid share it. Equal to `inchikey` where no such fragment exists (an
    /// inorganic compound) and for complexes in which nitrogen or carbon holds a metal.
    std::string parent_inchikey;
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
/// after the SMILES, leaves atoms or bonds open (`*`, `~`), is longer than 2000 characters, has
/// more than 500 heavy atoms, or is no SMILES or no possible molecule; `found` quotes the text and
/// says why in plain words. Source of the language: D. Weininger, J. Chem. Inf. Comput. Sci. 1988,
/// 28, 31, as RDKit reads it.
[[nodiscard]] Structure read_smiles(std::string_view smiles);

} // namespace cospot::descriptors
