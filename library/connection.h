#pragma once

#include <filesystem>
#include <memory>

struct sqlite3;

namespace cospot::library {

/// How long a lock that another process holds is waited for.
inline constexpr int kLockPatience_ms = 60'000;

/// What an open file is for.
enum class Access { read, write, create };

struct CloseConnection {
    void operator()(sqlite3 *connection) const noexcept;
};
using Connection = std::unique_ptr<sqlite3, CloseConnection>;

/// Opens a file; an empty name makes a database of this process alone. Also who only reads it opens
/// it for writing where that is allowed: SQLite then undoes a change that was cut off before.
/// Throws DatabaseError.
[[nodiscard]] Connection connect(const std::filesystem::path &file, Access access);

} // namespace cospot::library
