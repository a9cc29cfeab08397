#include "library/journal.h"

#include <system_error>

namespace cospot::library {

namespace fs = std::filesystem;

fs::path behind_links(const fs::path &file) {
    std::error_code error;
    const fs::path real = fs::canonical(file, error);
    return error ? file : real;
}

fs::path journal_of(const fs::path &file) {
    return file.string() + "-wal";
}

bool has_journalled_changes(const fs::path &file) {
    std::error_code error;
    const auto size = fs::file_size(journal_of(file), error);
    return !error && size > 0;
}

} // namespace cospot::library
