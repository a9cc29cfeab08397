#pragma once

#include <string>
#include <vector>

namespace cospot {

/// Whether the first cell with a text calls the row one of sums: Total, Sum, Summe, Gesamt (common
/// practice, no source).
[[nodiscard]] bool is_called_sum(const std::vector<std::string> &fields);

} // namespace cospot
