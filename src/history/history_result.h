#pragma once

#include "library/history.h"

#include <string>

namespace cospot {

/// The changes of a library, of something in it, or of all.
struct HistoryResult {
    std::string subject; ///< "the library", or what was asked for
    library::History history;
};

} // namespace cospot
