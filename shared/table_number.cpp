#include "shared/table_number.h"

#include "shared/number.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot {

namespace {

constexpr std::string_view kDigits = "0123456789";

/// The blanks that stand between thousands: plain, without a break, narrow (UTF-8).
std::string with_plain_blanks(std::string_view text) {
    std::string plain(text);
    for (const std::string_view blank : {"\u00a0", "\u202f", "\u2009"}) {
        for (std::size_t at = plain.find(blank); at != std::string::npos; at = plain.find(blank)) {
            plain.replace(at, blank.size(), " ");
        }
    }
    return plain;
}

/// Whether one to three digits are followed by groups of three behind `sign` each, at least one.
bool are_groups(std::string_view text, char sign) {
    std::size_t end = text.find(sign);
    if (end == std::string_view::npos || end == 0 || end > 3) {
        return false;
    }
    if (text.find_first_not_of(kDigits) != end) {
        return false;
    }
    for (; end < text.size(); end += 4) {
        const std::string_view group = text.substr(end + 1, 3);
        if (text[end] != sign || group.size() != 3 ||
            group.find_first_not_of(kDigits) != std::string_view::npos) {
            return false;
        }
    }
    return true;
}

/// What stands between thousands, and the place of the decimal sign; npos: there is none.
struct Signs {
    char between = '\0';
    std::size_t decimal = std::string_view::npos;
};

Signs signs_of(std::string_view number) {
    const std::size_t last = number.find_last_of(".,");
    if (number.find(' ') != std::string_view::npos) {
        return {' ', last};
    }
    if (last == std::string_view::npos) {
        return {};
    }
    const char other = number[last] == '.' ? ',' : '.';
    if (number.find(other) != std::string_view::npos) {
        return {other, last};
    }
    return number.find(number[last]) == last ? Signs{'\0', last} : Signs{number[last]};
}

} // namespace

std::optional<WrittenNumber> written_number(std::string_view text) {
    std::string number = with_plain_blanks(trimmed(text));
    const Signs signs = signs_of(number);
    WrittenNumber written;
    if (signs.decimal != std::string_view::npos) {
        written.decimal = number[signs.decimal];
        number[signs.decimal] = '.';
    }
    if (signs.between != '\0') {
        const std::size_t first = number.find_first_of(kDigits);
        const std::size_t end = std::min(signs.decimal, number.size());
        if (first == std::string::npos || first > 1 || first > end ||
            !are_groups(std::string_view(number).substr(first, end - first), signs.between)) {
            return std::nullopt;
        }
        if (written.decimal == '\0' && signs.between != ' ') {
            written.decimal = signs.between == '.' ? ',' : '.';
        }
        number.erase(std::remove(number.begin(), number.begin() + static_cast<std::ptrdiff_t>(end),
                                 signs.between),
                     number.begin() + static_cast<std::ptrdiff_t>(end));
        written.has_groups = true;
    }
    const auto value = number_from_text(number);
    if (!value) {
        return std::nullopt;
    }
    written.value = *value;
    return written;
}

std::string_view behind_about(std::string_view text) {
    // Longer words first: the one that fits is taken off.
    constexpr std::string_view words[]{"approximately", "approx.", "approx", "about", "circa",
                                       "etwa",          "ca.",     "ca",     "c.",    "~",
                                       "\u2248",        "\u223c"};
    text = trimmed(text);
    for (const std::string_view word : words) {
        if (text.size() > word.size() && equal_ignoring_case(text.substr(0, word.size()), word)) {
            return trimmed(text.substr(word.size()));
        }
    }
    return text;
}

std::optional<double> DecimalSign::read(const WrittenNumber &number, std::size_t line,
                                        std::string &contradiction) {
    if (number.decimal != '\0') {
        const bool has_comma = number.decimal == ',';
        std::size_t &own = has_comma ? line_with_comma_ : line_with_point_;
        const std::size_t other = has_comma ? line_with_point_ : line_with_comma_;
        if (other != 0) {
            contradiction =
                fmt::format("a decimal {} as in line {}", has_comma ? "point" : "comma", other);
            return std::nullopt;
        }
        own = own == 0 ? line : own;
    }
    if (number.has_groups && line_with_groups_ == 0) {
        line_with_groups_ = line;
    }
    return number.value;
}

} // namespace cospot
