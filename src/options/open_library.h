#pragma once

#include "library/library_file.h"
#include "options/command.h"

namespace cospot {

/// Opens the library that a command is called for, and says on `invocation.err` when it was
/// upgraded from the format of an older program. Throws as library::open_library does.
[[nodiscard]] library::Database open_library(const Invocation &invocation, library::Access access);

} // namespace cospot
