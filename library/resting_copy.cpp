#include "library/resting_copy.h"

#include "library/connection.h"
#include "library/file_lock.h"
#include "library/journal.h"
#include "shared/interruption.h"

#include <sqlite3.h>

#include <algorithm>
#include <memory>

namespace cospot::library {

namespace {

struct Free {
    void operator()(unsigned char *bytes) const noexcept { sqlite3_free(bytes); }
};
using Bytes = std::unique_ptr<unsigned char, Free>;

/// All bytes of the open file; null where they cannot be read or do not fit into memory.
Bytes bytes_of(sqlite3_file *file, sqlite3_int64 size) {
    constexpr sqlite3_int64 stretch = 1 << 24;
    Bytes bytes(static_cast<unsigned char *>(sqlite3_malloc64(static_cast<sqlite3_uint64>(size))));
    for (sqlite3_int64 at = 0; bytes && at < size; at += stretch) {
        const int part = static_cast<int>(std::min(stretch, size - at));
        if (file->pMethods->xRead(file, bytes.get() + at, part, at) != SQLITE_OK) {
            bytes.reset();
        }
    }
    return bytes;
}

/// The head of a database says that it has a journal (2), which memory cannot have (1):
/// https://sqlite.org/fileformat2.html, section 1.3.3.
void declare_without_journal(unsigned char *head) {
    head[18] = 1;
    head[19] = 1;
}

} // namespace

bool copy_at_rest(const std::filesystem::path &file, sqlite3 *target) {
    constexpr sqlite3_int64 head_size = 100;
    constexpr int pause_ms = 5;
    for (int waited_ms = 0; waited_ms < kLockPatience_ms; waited_ms += pause_ms) {
        check_interrupted();
        const FileLock lock(file, FileLock::Kind::shared);
        if (lock.is_busy()) { // somebody is closing it
            sqlite3_sleep(pause_ms);
            continue;
        }
        sqlite3_int64 size = 0;
        // Changes come into the file from a journal only, and a journal stays under our lock. Where
        // the lock cannot be had the file system has none, for writers neither.
        if (lock.file() == nullptr || has_journalled_changes(file) ||
            lock.file()->pMethods->xFileSize(lock.file(), &size) != SQLITE_OK || size < head_size) {
            return false;
        }
        Bytes bytes = bytes_of(lock.file(), size);
        if (!bytes || has_journalled_changes(file)) {
            return false;
        }
        declare_without_journal(bytes.get());
        return sqlite3_deserialize(target, "main", bytes.release(), size, size,
                                   SQLITE_DESERIALIZE_FREEONCLOSE | SQLITE_DESERIALIZE_READONLY) ==
               SQLITE_OK;
    }
    return false;
}

} // namespace cospot::library
