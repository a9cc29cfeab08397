#pragma once

#include <string>

namespace cospot::desk {

/// Opens an address in the browser that the desktop names (xdg-open). False where there is no
/// desktop or no such program.
[[nodiscard]] bool open_browser(const std::string &address);

} // namespace cospot::desk
