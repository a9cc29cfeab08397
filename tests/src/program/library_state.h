#pragma once

#include "library/library_file.h"

#include <sqlite3.h>

#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <string>

namespace cospot {

/// The only number that the query gives.
inline std::int64_t number_in(const std::filesystem::path &file, const std::string &sql) {
    const auto database = library::open_library(file, library::Access::write);
    library::Statement query = database.prepare(sql);
    return query.step() ? query.integer(0) : -1;
}

/// The number of values that the library holds or held.
inline std::int64_t values_in(const std::filesystem::path &file) {
    return number_in(file, "SELECT count(*) FROM measurement");
}

/// "ok", or what SQLite finds wrong with the library.
inline std::string integrity_of(const std::filesystem::path &file) {
    const auto database = library::open_library(file, library::Access::write);
    library::Statement check = database.prepare("PRAGMA integrity_check");
    library::Statement references = database.prepare("PRAGMA foreign_key_check");
    const std::string verdict = check.step() ? check.text(0) : "no answer";
    return references.step() ? "broken references" : verdict;
}

/// The names of the files in a folder.
inline std::set<std::string> files_in(const std::filesystem::path &folder) {
    std::set<std::string> names;
    for (const auto &entry : std::filesystem::directory_iterator(folder)) {
        names.insert(entry.path().filename().string());
    }
    return names;
}

/// What the file holds, byte for byte.
inline std::string bytes_of(const std::filesystem::path &file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

} // namespace cospot
