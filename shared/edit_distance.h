#pragma once

#include <cstddef>
#include <string_view>

namespace cospot {

/// The fewest slips that make one text of the other: a byte left out, added or mistaken for
/// another, or two neighbours exchanged, no place touched twice. These four are most slips of the
/// keyboard (damerau1964).
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);

} // namespace cospot
