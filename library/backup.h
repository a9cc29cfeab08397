#pragma once

#include "library/database.h"

#include <cstdint>
#include <filesystem>

namespace cospot::library {

/// What a backup holds.
struct BackupSummary {
    std::uintmax_t bytes = 0;
    std::int64_t values = 0;    ///< that hold
    std::int64_t withdrawn = 0; ///< retired or superseded
    std::int64_t compounds = 0;
    std::int64_t systems = 0;
};

/// Copies an open library into the new file `target`, as it is at one moment, while others may go
/// on writing. The copy is checked (PRAGMA integrity_check, and foreign_key_check but for the fits,
/// which are derived) and on disk before it gets its name. Throws InputError if `target` exists or
/// its folder does not, DatabaseError if the copy cannot be made or is not sound; `target` does not
/// exist then.
BackupSummary back_up(const Database &source, const std::filesystem::path &target);

} // namespace cospot::library
