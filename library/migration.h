#pragma once

#include "library/database.h"

#include <filesystem>
#include <functional>
#include <string>

namespace cospot::library {

/// Is told what the user should know although nothing is wrong.
using Notice = std::function<void(const std::string &)>;

/// The schema that this program reads and writes (SQLite's user_version).
[[nodiscard]] int schema_version();

/// The format that the library has.
[[nodiscard]] int format_of(const Database &database);

/// Brings a library from one format to a later one. Call it inside a transaction.
void apply_migrations(Database &database, int from, int to);

/// Brings the library of an older program to this one's format, in one transaction. The library as
/// it was is kept beside it as "FILE.format-N.backup"; `notice` is told. Throws InputError where
/// the file or its folder cannot be written, DatabaseError where the library is none of its format;
/// no backup stays then. The library leaves its write-ahead log too, where nobody else has it open.
void upgrade_library(const std::filesystem::path &file, const Notice &notice);

/// Whether changes of the library go into a log beside it, as those of older programs did. The log
/// needs memory that all processes share, so that such a library must not lie on a network folder
/// (https://sqlite.org/wal.html); others have a rollback journal while they are changed.
[[nodiscard]] bool has_write_ahead_log(const Database &database);

/// Gives a library of this format the rollback journal, after a backup as `upgrade_library` makes
/// it. Does nothing where it cannot be written or others have it open: the next who writes does it.
void leave_write_ahead_log(const std::filesystem::path &file, const Notice &notice);

} // namespace cospot::library
