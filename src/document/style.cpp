#include "document/style.h"

#include "shared/text.h"

#include <unistd.h>

#include <algorithm>
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
    const std::size_t room = width - std::min(indent, width - 1);
    std::string result;
    std::string line = margin;
    while (!text.empty()) {
        const std::size_t blank = text.find(' ');
        std::string_view word = text.substr(0, blank);
        const bool is_first = line.size() == margin.size();
        if (!is_first && display_width(line) + 1 + display_width(word) > width) {
            result += line + '\n';
            line = margin;
        } else if (!is_first) {
            line += ' ';
        }
        const std::string_view part = first_columns(word, room);
        line += part;
        const bool is_whole = part.size() == word.size();
        text.remove_prefix(is_whole ? std::min(word.size() + 1, text.size()) : part.size());
        if (!is_whole) { // a word longer than a line goes on in the next
            result += line + '\n';
            line = margin;
        }
    }
    return result + line + '\n';
}

} // namespace cospot
