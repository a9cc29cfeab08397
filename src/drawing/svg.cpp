#include "drawing/svg.h"

#include "document/html.h"

#include <fmt/format.h>

namespace cospot::svg {

using html::escaped;

std::string number(double value) {
    std::string text = fmt::format("{:.2f}", value);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.ends_with('.')) {
        text.pop_back();
    }
    return text == "-0" ? "0" : text;
}

std::string begin(double width, double height, std::string_view style_class, std::string_view title,
                  std::string_view description) {
    return fmt::format(R"(<svg xmlns="http://www.w3.org/2000/svg" role="img" class="{}" )"
                       R"(width="{}" height="{}" viewBox="0 0 {} {}">)"
                       "<title>{}</title><desc>{}</desc>\n",
                       style_class, number(width), number(height), number(width), number(height),
                       escaped(title), escaped(description));
}

std::string text(double x, double y, std::string_view anchor, std::string_view content,
                 std::string_view style_class) {
    return fmt::format(
        R"(<text x="{}" y="{}" text-anchor="{}"{}>{}</text>)", number(x), number(y), anchor,
        style_class.empty() ? "" : fmt::format(R"( class="{}")", style_class), escaped(content));
}

std::string line(double x1, double y1, double x2, double y2, std::string_view style_class) {
    return fmt::format(R"(<line x1="{}" y1="{}" x2="{}" y2="{}" class="{}"/>)", number(x1),
                       number(y1), number(x2), number(y2), style_class);
}

std::string rectangle(double x, double y, double width, double height,
                      std::string_view style_class) {
    return fmt::format(R"(<rect x="{}" y="{}" width="{}" height="{}" class="{}"/>)", number(x),
                       number(y), number(width), number(height), style_class);
}

std::string begin_mark(std::string_view key, std::string_view title, std::string_view style_class) {
    return fmt::format(R"(<g class="mark {}" data-key="{}"><title>{}</title>)", style_class,
                       escaped(key), escaped(title));
}

} // namespace cospot::svg
