#pragma once

#include "library/database.h"
#include "library/migration.h"

#include <filesystem>

namespace cospot::library {

/// Stands in the header of every library file (SQLite's application_id): "coSp".
inline constexpr int kApplicationId = 0x636F5370;

/// Creates an empty library. Throws InputError if the file exists or its folder does not.
void create_library(const std::filesystem::path &file);

/// Opens an existing library. Throws InputError, without touching the file, if it is missing, is no
/// library, or was written by a newer program. The library of an older program is upgraded first,
/// after a backup (see `upgrade_library`), also where it is only to be read; one that is to be
/// written leaves its write-ahead log (see `leave_write_ahead_log`).
[[nodiscard]] Database open_library(const std::filesystem::path &file, Access access,
                                    const Notice &notice = {});

/// Opens an existing library of this or an older format for reading, as it is.
/// Throws InputError as `open_library` does.
[[nodiscard]] Database open_unchanged(const std::filesystem::path &file);

} // namespace cospot::library
