#pragma once

#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// A small chart of one thing over several samples, in per cent; a gap where it was not seen. The
/// axis starts at 0 where the values lie far from 100, and else shows their range. `words` says the
/// same for those who do not see it.
[[nodiscard]] std::string trend_picture(const std::vector<std::optional<double>> &per_cent,
                                        const std::string &title, const std::string &words);

} // namespace cospot
