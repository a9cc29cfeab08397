#pragma once

#include "document/document.h"
#include "history/history_result.h"

namespace cospot {

/// A row a change, the newest first: when, who, which verb; below it what came of it, what the
/// change says of itself, and the command.
[[nodiscard]] Document history_document(const HistoryResult &result);

} // namespace cospot
