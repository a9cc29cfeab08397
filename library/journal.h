#pragma once

#include <filesystem>
#include <vector>

namespace cospot::library {

/// The library itself where the name is a link: SQLite keeps its journal beside that.
[[nodiscard]] std::filesystem::path behind_links(const std::filesystem::path &file);

/// Where SQLite keeps changes that are not in the file itself yet; `file` is no link.
[[nodiscard]] std::filesystem::path journal_of(const std::filesystem::path &file);

/// The index of the journal, which those who have the library open share.
[[nodiscard]] std::filesystem::path journal_index_of(const std::filesystem::path &file);

/// Whether the journal may hold changes that the file itself does not.
[[nodiscard]] bool has_journalled_changes(const std::filesystem::path &file);

/// Whether this process may write the file or folder, as the user for whom it acts.
[[nodiscard]] bool is_writable(const std::filesystem::path &path);

/// Takes away a journal without changes, and its index, that nobody has open: by SQLite's own rule,
/// under the exclusive lock of the library. Does nothing where that cannot be had.
void clear_idle_journal(const std::filesystem::path &file);

/// The journal and its index, as far as they are there and this user may not write them although
/// the library itself may be written.
[[nodiscard]] std::vector<std::filesystem::path>
files_in_the_way(const std::filesystem::path &file);

} // namespace cospot::library
