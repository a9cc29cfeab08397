#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace cospot::descriptors {

/// For each SMILES, whether its structure holds the pattern. The pattern is a SMARTS of at most
/// 2000 characters; "[H]" in it asks for a hydrogen on its neighbour, and stereochemistry given in
/// it must be there. Throws InputError with an empty Where for a SMARTS that is empty, has blanks
/// or extensions, or cannot be read, and for a SMILES that `read_smiles` refuses.
[[nodiscard]] std::vector<bool> substructure_matches(std::string_view smarts,
                                                     const std::vector<std::string> &smiles);

} // namespace cospot::descriptors
