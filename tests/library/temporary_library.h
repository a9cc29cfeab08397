#pragma once

#include "library/library_file.h"

#include <filesystem>
#include <string>

#include <unistd.h>

namespace cospot::library {

/// A folder of its own for one test, removed with all it holds.
class TemporaryFolder {
public:
    TemporaryFolder() {
        std::string name = (std::filesystem::temp_directory_path() / "cospot-test-XXXXXX").string();
        path_ = mkdtemp(name.data());
    }
    ~TemporaryFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    TemporaryFolder(const TemporaryFolder &) = delete;
    TemporaryFolder &operator=(const TemporaryFolder &) = delete;

    [[nodiscard]] std::filesystem::path operator/(const std::string &name) const {
        return path_ / name;
    }

private:
    std::filesystem::path path_;
};

/// A new, empty library in a temporary folder.
struct TemporaryLibrary {
    TemporaryFolder folder;
    std::filesystem::path file = folder / "library.db";

    TemporaryLibrary() { create_library(file); }
    [[nodiscard]] Database open() const { return open_library(file, Access::write); }
};

} // namespace cospot::library
