#include "desk/url.h"

#include <algorithm>
#include <charconv>
#include <utility>

namespace cospot::desk {

namespace {

std::string decoded(std::string_view text) {
    std::string plain;
    for (std::size_t i = 0; i < text.size(); ++i) {
        unsigned value = 0;
        const char *const digits = text.data() + i + 1;
        if (text[i] == '%' && i + 2 < text.size() &&
            std::from_chars(digits, digits + 2, value, 16).ptr == digits + 2) {
            plain += static_cast<char>(value);
            i += 2;
        } else {
            plain += text[i] == '+' ? ' ' : text[i];
        }
    }
    return plain;
}

/// Calls `take` with each part between the dividers that is not empty.
template <typename Take> void for_each_part(std::string_view text, char divider, Take take) {
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(divider), text.size());
        if (end > 0) {
            take(text.substr(0, end));
        }
        text.remove_prefix(std::min(end + 1, text.size()));
    }
}

} // namespace

std::string Target::question(std::string_view name) const {
    const auto place = std::find_if(questions.begin(), questions.end(),
                                    [&](const auto &one) { return one.first == name; });
    return place == questions.end() ? std::string() : place->second;
}

Target target_of(std::string_view text) {
    Target target;
    const std::size_t end = std::min(text.find('?'), text.size());
    for_each_part(text.substr(0, end), '/',
                  [&](std::string_view part) { target.path.push_back(decoded(part)); });
    for_each_part(text.substr(std::min(end + 1, text.size())), '&', [&](std::string_view part) {
        const std::size_t equals = std::min(part.find('='), part.size());
        target.questions.emplace_back(decoded(part.substr(0, equals)),
                                      decoded(part.substr(std::min(equals + 1, part.size()))));
    });
    return target;
}

} // namespace cospot::desk
