#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace cospot::descriptors {

/// Characters of the longest SMILES that is read.
inline constexpr std::size_t longest_smiles = 2000;

/// Why the text is not worth parsing, in plain words, or empty. Catches what RDKit reads without a
/// word (an empty text, a name behind the SMILES, query atoms) and what would take too long.
[[nodiscard]] std::string fault_before_parsing(std::string_view smiles);

/// What is wrong with a text that did not parse, in plain words, with the position (from 1). RDKit
/// itself reports it only to its log.
[[nodiscard]] std::string syntax_fault(std::string_view smiles);

} // namespace cospot::descriptors
