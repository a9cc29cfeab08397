#include "library/journal.h"

#include <system_error>

#include <fcntl.h>
#include <unistd.h>

namespace cospot::library {

namespace fs = std::filesystem;

fs::path behind_links(const fs::path &file) {
    std::error_code error;
    const fs::path real = fs::canonical(file, error);
    return error ? file : real;
}

fs::path folder_of(const fs::path &file) {
    return file.has_parent_path() ? file.parent_path() : fs::path(".");
}

fs::path write_ahead_log_of(const fs::path &file) {
    return file.string() + "-wal";
}

fs::path write_ahead_log_index_of(const fs::path &file) {
    return file.string() + "-shm";
}

bool is_writable(const fs::path &path) {
    return faccessat(AT_FDCWD, path.c_str(), W_OK, AT_EACCESS) == 0;
}

std::vector<fs::path> files_in_the_way(const fs::path &file) {
    std::vector<fs::path> found;
    if (is_writable(file)) {
        for (const char *ending : {"-journal", "-wal", "-shm"}) {
            const fs::path beside = file.string() + ending;
            std::error_code error;
            if (fs::exists(beside, error) && !is_writable(beside)) {
                found.push_back(beside);
            }
        }
    }
    return found;
}

} // namespace cospot::library
