#pragma once

#include <filesystem>

namespace cospot::library {

/// The library itself where the name is a link: SQLite keeps its journal beside that.
[[nodiscard]] std::filesystem::path behind_links(const std::filesystem::path &file);

/// Where SQLite keeps changes that are not in the file itself yet; `file` is no link.
[[nodiscard]] std::filesystem::path journal_of(const std::filesystem::path &file);

/// Whether the journal may hold changes that the file itself does not.
[[nodiscard]] bool has_journalled_changes(const std::filesystem::path &file);

} // namespace cospot::library
