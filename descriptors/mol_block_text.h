#pragma once

#include <string>
#include <string_view>

namespace cospot::descriptors {

/// Whether the line with the counts announces the newer form, V3000.
[[nodiscard]] bool is_extended_block(std::string_view counts_line);

/// Why a mol block is not worth parsing, in plain words, or empty. Catches what is too long or
/// cut off, and bonds of a V2000 block without their atoms or left open: RDKit says that in no
/// words and loses memory.
[[nodiscard]] std::string fault_before_parsing_block(std::string_view block);

} // namespace cospot::descriptors
