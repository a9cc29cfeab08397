#pragma once

#include <string_view>

namespace cospot {

/// A table that is built into the program, without the lines at its top that begin with '#'.
[[nodiscard]] inline std::string_view without_comments(std::string_view text) {
    while (text.starts_with('#')) {
        text.remove_prefix(text.find('\n') + 1);
    }
    return text;
}

} // namespace cospot
