#pragma once

#include <memory>
#include <string>
#include <string_view>

namespace RDKit {
class ROMol;
class RWMol;
} // namespace RDKit

namespace cospot::descriptors {

/// The sanitized molecule of one compound. Refuses what `read_smiles` refuses but for InChI's own
/// limits. Call it inside `guarded`. Never share the molecule between threads.
[[nodiscard]] std::unique_ptr<RDKit::RWMol> molecule_of_smiles(std::string_view smiles);

/// The same from an MDL mol block, as `read_mol_block` reads it.
[[nodiscard]] std::unique_ptr<RDKit::RWMol> molecule_of_mol_block(std::string_view block);

/// Why a molecule of good syntax, not sanitized, is impossible; atoms count from 1 in its order.
[[nodiscard]] std::string chemistry_fault(RDKit::RWMol &unsanitized);

/// Why a molecule is no compound (an atom or bond left open) or too large to handle, or empty.
[[nodiscard]] std::string contents_fault(const RDKit::ROMol &molecule);

} // namespace cospot::descriptors
