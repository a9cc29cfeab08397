#pragma once

#include <filesystem>

struct sqlite3;

namespace cospot::library {

/// Makes an empty connection one to a copy in memory of what the library holds at this moment.
/// False where changes wait in its journal, or it cannot be read; `file` is no link.
[[nodiscard]] bool copy_at_rest(const std::filesystem::path &file, sqlite3 *target);

} // namespace cospot::library
