#pragma once

#include <string>

namespace cospot {

/// A frame of which a share (0 to 1) is filled, small enough for a cell of a table. `words` says
/// the same for those who do not see it.
[[nodiscard]] std::string share_bar(double share, const std::string &words);

} // namespace cospot
