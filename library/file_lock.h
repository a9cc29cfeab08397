#pragma once

#include <filesystem>

struct sqlite3;
struct sqlite3_file;

namespace cospot::library {

/// SQLite's lock on a file, through SQLite itself, which keeps apart the connections of this
/// process too. Whoever has the file open with a journal holds the shared lock.
class FileLock {
public:
    enum class Kind { shared, exclusive };

    /// Waits for nobody.
    FileLock(const std::filesystem::path &file, Kind kind);
    ~FileLock();
    FileLock(const FileLock &) = delete;
    FileLock &operator=(const FileLock &) = delete;

    [[nodiscard]] bool is_held() const noexcept { return is_held_; }
    /// Another process holds a lock that does not go with this one.
    [[nodiscard]] bool is_busy() const noexcept { return is_busy_; }
    /// The open file; null where it could not be opened.
    [[nodiscard]] sqlite3_file *file() const noexcept { return file_; }

private:
    sqlite3 *connection_ = nullptr; // it never reads, so that it has no lock of its own
    sqlite3_file *file_ = nullptr;
    bool is_held_ = false;
    bool is_busy_ = false;
};

} // namespace cospot::library
