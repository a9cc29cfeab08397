#pragma once

#include <string>

namespace cospot {

/// An interval on an axis from `axis_low` to `axis_high`, with a tick at the expected value, small
/// enough to stand in a cell of a table. `words` says the same for those who do not see it.
[[nodiscard]] std::string range_picture(double low, double expected, double high, double axis_low,
                                        double axis_high, const std::string &words);

} // namespace cospot
