#pragma once

#include <optional>
#include <string_view>

namespace cospot::desk {

/// A file of which the pages of the desk are made.
struct PageFile {
    std::string_view content;
    std::string_view type; ///< of the media, for Content-Type
};

/// The file of a name such as "desk.html" or "plate.js"; nothing where there is none.
[[nodiscard]] std::optional<PageFile> page_file(std::string_view name);

} // namespace cospot::desk
