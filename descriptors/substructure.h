#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace cospot::descriptors {

/// For each SMILES, whether its structure holds the pattern. The pattern is a SMARTS of at most
/// 2000 characters; "[H]" in it asks for a hydrogen on its neighbour, and stereochemistry given in
/// it must be there. Throws InputError with an empty Where for a SMARTS that is empty, has blanks
/// or extensions, or cannot be read, and for a SMILES that `read_smiles` refuses.
/// A search may take for ever (a large odd ring in a grid of rings), and RDKit cannot be stopped:
/// it is made in a process of its own, which is ended where one structure takes longer than
/// kSearchPatience_s. Such a structure counts as not holding the pattern; its position is added to
/// `undecided`.
[[nodiscard]] std::vector<bool> substructure_matches(std::string_view smarts,
                                                     const std::vector<std::string> &smiles,
                                                     std::vector<std::size_t> &undecided);

/// Almost all searches take less than a millisecond.
inline constexpr double kSearchPatience_s = 2.0;

} // namespace cospot::descriptors
