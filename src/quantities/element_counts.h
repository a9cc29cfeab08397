#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace cospot {

/// How many atoms of each element a molecule has, by symbol.
using ElementCounts = std::map<std::string, int>;

/// The element counts of a molecular formula without brackets, e.g. C8H8O3 or CH3COOH: elements in
/// any order, several times where the formula is condensed; a charge at the end (+, -2) is passed
/// over. Empty for anything else, an unknown element among it.
[[nodiscard]] std::optional<ElementCounts> element_counts(std::string_view formula);

} // namespace cospot
