#include "output/style.h"

#include "shared/text.h"

#include <unistd.h>

#include <cstdlib>
#include <iostream>

namespace cospot {

namespace {

bool environment_allows_style() {
    const char *no_color = std::getenv("NO_COLOR"); // NOLINT(concurrency-mt-unsafe)
    const char *term = std::getenv("TERM");         // NOLINT(concurrency-mt-unsafe)
    return (no_color == nullptr || *no_color == '\0') &&
           (term == nullptr || std::string_view(term) != "dumb");
}

} // namespace

bool is_terminal(const std::ostream &out) {
    return &out == &std::cout && isatty(STDOUT_FILENO) == 1;
}

Style style_for(const std::ostream &out) {
    return {is_terminal(out) && environment_allows_style()};
}

std::string wrapped(std::string_view text, std::size_t indent, std::size_t width) {
    const std::string margin(indent, ' ');
    std::string result;
    std::string line = margin;
    while (!text.empty()) {
        const std::size_t blank = text.find(' ');
        const std::string_view word = text.substr(0, blank);
        const bool is_first = line.size() == margin.size();
        if (!is_first && display_width(line) + 1 + display_width(word) > width) {
            result += line + '\n';
            line = margin;
        } else if (!is_first) {
            line += ' ';
        }
        line += word;
        text.remove_prefix(blank == std::string_view::npos ? text.size() : blank + 1);
    }
    return result + line + '\n';
}

} // namespace cospot
