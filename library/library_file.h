#pragma once

#include "library/database.h"

#include <filesystem>

namespace cospot::library {

/// Stands in the header of every library file (SQLite's application_id): "coSp".
inline constexpr int kApplicationId = 0x636F5370;

/// The schema that this program reads and writes (SQLite's user_version).
[[nodiscard]] int schema_version();

/// Creates an empty library. Throws InputError if the file exists or its folder does not.
void create_library(const std::filesystem::path &file);

/// Opens an existing library. Throws InputError, without touching the file, if it is missing, is no
/// library, or was written by a newer program.
[[nodiscard]] Database open_library(const std::filesystem::path &file, Access access);

} // namespace cospot::library
