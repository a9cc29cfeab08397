#pragma once

#include <filesystem>
#include <vector>

namespace cospot::library {

/// The library itself where the name is a link: SQLite keeps its journal beside that.
[[nodiscard]] std::filesystem::path behind_links(const std::filesystem::path &file);

[[nodiscard]] std::filesystem::path folder_of(const std::filesystem::path &file);

/// Where an older program kept changes that are not in the library itself yet; `file` is no link.
[[nodiscard]] std::filesystem::path write_ahead_log_of(const std::filesystem::path &file);

/// The index of that log, which those who have the library open share.
[[nodiscard]] std::filesystem::path write_ahead_log_index_of(const std::filesystem::path &file);

/// Whether this process may write the file or folder, as the user for whom it acts.
[[nodiscard]] bool is_writable(const std::filesystem::path &path);

/// What SQLite keeps beside the library, as far as it is there and this user may not write it
/// although the library itself may be written.
[[nodiscard]] std::vector<std::filesystem::path>
files_in_the_way(const std::filesystem::path &file);

} // namespace cospot::library
