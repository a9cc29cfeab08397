#pragma once

#include <cstddef>
#include <set>
#include <string>

namespace cospot {

/// "line 4" or "lines 4, 7, 9 and 12 more"
[[nodiscard]] std::string line_list(const std::set<std::size_t> &lines);

} // namespace cospot
