#pragma once

#include <string>

namespace RDKit {
class ROMol;
}

namespace cospot::descriptors {

/// IUPAC's identifier of a structure (S. Heller et al., J. Cheminform. 2013, 5, 7).
struct Inchi {
    std::string text;             ///< standard InChI, "InChI=1S/..."
    std::string key;              ///< standard InChIKey, 27 characters
    bool has_open_stereo = false; ///< InChI sees a stereocentre or double bond that is not given
};

/// The InChI of a sanitized molecule whose stereochemistry is assigned. Tetrahedral and double bond
/// stereo is passed on, axial chirality is not. Calls are queued: libinchi is not made for threads.
/// Throws InputError, whose `found` says why, where InChI cannot describe the molecule.
[[nodiscard]] Inchi inchi_of(const RDKit::ROMol &molecule);

/// The standard InChIKey alone, for half the work. Throws as `inchi_of` does.
[[nodiscard]] std::string inchikey_of(const RDKit::ROMol &molecule);

/// First block (14 letters) of the InChIKey made with InChI's own options for keto-enol and
/// 1,5-tautomerism: a hash of the connections, without stereochemistry and isotopes, in which more
/// hydrogens count as mobile than in the standard InChI. Where none does, it is the first block of
/// the standard key. Throws as `inchi_of` does.
[[nodiscard]] std::string tautomer_hash_of(const RDKit::ROMol &molecule);

} // namespace cospot::descriptors
