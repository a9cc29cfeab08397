#include "shared/line_list.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot {

std::string line_list(const std::set<std::size_t> &lines) {
    constexpr std::size_t most = 5;
    const std::size_t shown = std::min(most, lines.size());
    std::string text = lines.size() == 1 ? "line " : "lines ";
    auto line = lines.begin();
    for (std::size_t i = 0; i < shown; ++i, ++line) {
        const bool is_last = i + 1 == lines.size();
        text += fmt::format("{}{}", i == 0 ? "" : is_last ? " and " : ", ", *line);
    }
    return lines.size() > shown ? fmt::format("{} and {} more", text, lines.size() - shown) : text;
}

} // namespace cospot
