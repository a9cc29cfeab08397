#pragma once

#include "library/cleared_by_signal.h"

#include <filesystem>
#include <memory>

struct sqlite3;

namespace cospot::library {

/// How long a lock that another process holds is waited for.
inline constexpr int kLockPatience_ms = 60'000;

/// Closes an SQLite connection and clears the journal away that it may have left.
struct CloseConnection {
    std::filesystem::path file; ///< the library behind links, or empty: nothing to clear away
    bool had_changes = false;   ///< in its journal before: they are left to who writes
    std::unique_ptr<ClearedBySignal> cleared_by_signal;
    void operator()(sqlite3 *connection) const noexcept;
};
using Connection = std::unique_ptr<sqlite3, CloseConnection>;

/// Opens a file for writing, or makes it. An empty name makes a database of this process alone.
/// Throws DatabaseError.
[[nodiscard]] Connection connect_for_writing(const std::filesystem::path &file, bool may_create);

/// Opens a file for reading. A user who may not write it makes no file beside it, which would keep
/// others from writing. Where there is no journal and none can be made, the connection is to a copy
/// in memory of what the library holds at this moment. Throws DatabaseError.
[[nodiscard]] Connection connect_for_reading(const std::filesystem::path &file);

} // namespace cospot::library
