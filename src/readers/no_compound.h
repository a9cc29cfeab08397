#pragma once

#include <string_view>

namespace cospot {

/// Whether a text in a column of compounds says that the compound is not known: "unknown", "unk",
/// "unidentified", "n.i.", "?", with or without a number (common practice, no source).
[[nodiscard]] bool names_no_compound(std::string_view text);

/// Whether a text in a column of compounds says that the peak is that of the hold-up time: "solvent
/// front", "void", "t0", "injection peak", "Totzeit", with or without a number (common practice, no
/// source).
[[nodiscard]] bool names_unretained(std::string_view text);

} // namespace cospot
