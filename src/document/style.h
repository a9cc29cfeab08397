#pragma once

#include <iosfwd>
#include <string>
#include <string_view>

namespace cospot {

/// How text is set off on a terminal; plain everywhere else.
struct Style {
    bool is_terminal = false;

    [[nodiscard]] std::string strong(std::string_view text) const {
        return is_terminal ? "\033[1m" + std::string(text) + "\033[0m" : std::string(text);
    }
    [[nodiscard]] std::string faint(std::string_view text) const {
        return is_terminal ? "\033[2m" + std::string(text) + "\033[0m" : std::string(text);
    }
};

/// Whether what is written to `out` is seen at once: standard output on a terminal.
[[nodiscard]] bool is_terminal(const std::ostream &out);

/// Style for `out`: only standard output on a terminal is styled, and not where the environment
/// variable NO_COLOR is set or TERM is "dumb".
[[nodiscard]] Style style_for(const std::ostream &out);

/// The text broken at blanks into lines of at most `width` columns, each after `indent` blanks.
[[nodiscard]] std::string wrapped(std::string_view text, std::size_t indent,
                                  std::size_t width = 80);

} // namespace cospot
