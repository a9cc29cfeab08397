#pragma once

#include "library/history.h"

#include <string>
#include <string_view>

namespace cospot {

/// "3 values, 1 compound and 1 system added; 2 values withdrawn"; empty where no row tells.
[[nodiscard]] std::string what_words(const library::HistoryEntry &entry);

/// "limonene on GC-WAX, run G7: RI 1203.0 to 1201.0; thymol on GC-WAX: RI 2160.0 withdrawn and 3
/// more"; empty where no value was corrected or withdrawn.
[[nodiscard]] std::string changed_words(const library::HistoryEntry &entry);

/// The command as it was typed, or that it was not recorded.
[[nodiscard]] std::string command_words(const library::HistoryEntry &entry);

} // namespace cospot
