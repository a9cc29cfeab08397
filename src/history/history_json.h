#pragma once

#include "document/json.h"
#include "library/history.h"

namespace cospot {

/// One change: {"change", "at", "who", "verb", "command", "detail", "what", "values", "corrected",
/// "withdrawn", "changed", "compounds", "names", "structures", "systems", "responses", "bands",
/// "proofs"}. `command` is null where it was not recorded.
[[nodiscard]] Json history_json(const library::HistoryEntry &entry);

} // namespace cospot
