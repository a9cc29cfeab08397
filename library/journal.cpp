#include "library/journal.h"

#include "library/file_lock.h"

#include <system_error>

#include <fcntl.h>
#include <unistd.h>

namespace cospot::library {

namespace fs = std::filesystem;

namespace {

bool is_there(const fs::path &file) {
    std::error_code error;
    return fs::exists(file, error);
}

} // namespace

fs::path behind_links(const fs::path &file) {
    std::error_code error;
    const fs::path real = fs::canonical(file, error);
    return error ? file : real;
}

fs::path journal_of(const fs::path &file) {
    return file.string() + "-wal";
}

fs::path journal_index_of(const fs::path &file) {
    return file.string() + "-shm";
}

bool has_journalled_changes(const fs::path &file) {
    std::error_code error;
    const auto size = fs::file_size(journal_of(file), error);
    return !error && size > 0;
}

bool is_writable(const fs::path &path) {
    return faccessat(AT_FDCWD, path.c_str(), W_OK, AT_EACCESS) == 0;
}

void clear_idle_journal(const fs::path &file) {
    if (has_journalled_changes(file) ||
        (!is_there(journal_of(file)) && !is_there(journal_index_of(file)))) {
        return;
    }
    const FileLock lock(file, FileLock::Kind::exclusive);
    if (lock.is_held() && !has_journalled_changes(file)) {
        std::error_code ignored;
        fs::remove(journal_index_of(file), ignored);
        fs::remove(journal_of(file), ignored);
    }
}

std::vector<fs::path> files_in_the_way(const fs::path &file) {
    std::vector<fs::path> found;
    if (is_writable(file)) {
        for (const fs::path &beside : {journal_of(file), journal_index_of(file)}) {
            if (is_there(beside) && !is_writable(beside)) {
                found.push_back(beside);
            }
        }
    }
    return found;
}

} // namespace cospot::library
