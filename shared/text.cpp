#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>

namespace cospot {

namespace {

constexpr std::string_view kNoBreakSpace = "\xC2\xA0";

bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\r';
}

bool is_control(char c) {
    return static_cast<unsigned char>(c) < 0x20 || c == '\x7F';
}

/// The code point of a well-formed sequence.
char32_t code_point(std::string_view sequence) {
    const auto lead = static_cast<unsigned char>(sequence[0]);
    char32_t point = sequence.size() == 1   ? lead
                     : sequence.size() == 2 ? lead & 0x1FU
                     : sequence.size() == 3 ? lead & 0x0FU
                                            : lead & 0x07U;
    for (const char c : sequence.substr(1)) {
        point = point << 6U | (static_cast<unsigned char>(c) & 0x3FU);
    }
    return point;
}

/// Whether a well-formed sequence steers a terminal or the direction of writing, or is not seen:
/// controls, and the format characters of Unicode (general category Cf) that no plain text needs.
bool is_hidden(std::string_view sequence) {
    if (sequence.size() == 1) {
        return is_control(sequence[0]);
    }
    struct Range {
        char32_t first;
        char32_t last;
    };
    static constexpr std::array<Range, 10> hidden{{{0x80, 0x9F},
                                                   {0xAD, 0xAD},
                                                   {0x61C, 0x61C},
                                                   {0x180E, 0x180E},
                                                   {0x200B, 0x200F},
                                                   {0x2028, 0x202E},
                                                   {0x2060, 0x206F},
                                                   {0xFEFF, 0xFEFF},
                                                   {0xFFF9, 0xFFFB},
                                                   {0xE0000, 0xE007F}}};
    const char32_t point = code_point(sequence);
    return std::any_of(hidden.begin(), hidden.end(), [&](const Range &range) {
        return point >= range.first && point <= range.last;
    });
}

char lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

/// Length of the well-formed UTF-8 sequence at the start of `text`, 0 if there is none (RFC 3629).
std::size_t sequence_length(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const auto tail = [&](std::size_t i) { return i < text.size() && (byte(i) & 0xC0) == 0x80; };
    const unsigned char lead = byte(0);
    if (lead < 0x80) {
        return 1;
    }
    if (lead >= 0xC2 && lead <= 0xDF) {
        return tail(1) ? 2 : 0;
    }
    if (lead >= 0xE0 && lead <= 0xEF) {
        const bool overlong = lead == 0xE0 && text.size() > 1 && byte(1) < 0xA0;
        const bool surrogate = lead == 0xED && text.size() > 1 && byte(1) > 0x9F;
        return tail(1) && tail(2) && !overlong && !surrogate ? 3 : 0;
    }
    if (lead >= 0xF0 && lead <= 0xF4) {
        const bool overlong = lead == 0xF0 && text.size() > 1 && byte(1) < 0x90;
        const bool too_large = lead == 0xF4 && text.size() > 1 && byte(1) > 0x8F;
        return tail(1) && tail(2) && tail(3) && !overlong && !too_large ? 4 : 0;
    }
    return 0;
}

/// Combining diacritical marks U+0300 to U+036F take no column of their own.
bool is_combining(std::string_view sequence) {
    const auto lead = static_cast<unsigned char>(sequence[0]);
    const auto next = sequence.size() > 1 ? static_cast<unsigned char>(sequence[1]) : 0U;
    return (lead == 0xCC && next >= 0x80) || (lead == 0xCD && next <= 0xAF);
}

} // namespace

std::string_view trimmed(std::string_view text) {
    while (!text.empty()) {
        if (is_blank(text.front())) {
            text.remove_prefix(1);
        } else if (is_blank(text.back())) {
            text.remove_suffix(1);
        } else if (text.starts_with(kNoBreakSpace)) {
            text.remove_prefix(kNoBreakSpace.size());
        } else if (text.ends_with(kNoBreakSpace)) {
            text.remove_suffix(kNoBreakSpace.size());
        } else {
            break;
        }
    }
    return text;
}

std::string without_end_blanks(std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    return line;
}

std::string lower_ascii(std::string_view text) {
    std::string result(text);
    std::transform(result.begin(), result.end(), result.begin(), lower);
    return result;
}

bool equal_ignoring_case(std::string_view a, std::string_view b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](char x, char y) { return lower(x) == lower(y); });
}

std::string in_quotes(std::string_view text, std::size_t max_length) {
    std::string result = "\"";
    for (std::size_t at = 0; at < text.size();) {
        if (at >= max_length) {
            result += "...";
            break;
        }
        const std::size_t length = sequence_length(text.substr(at));
        if (length == 0 || is_hidden(text.substr(at, length))) {
            result += fmt::format("\\x{:02X}", static_cast<unsigned char>(text[at]));
            ++at;
        } else {
            result += text.substr(at, length);
            at += length;
        }
    }
    return result + "\"";
}

std::string printable(std::string_view text) {
    std::string result;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = sequence_length(text.substr(at));
        const std::string_view sequence = text.substr(at, std::max<std::size_t>(1, length));
        if (length == 0) {
            result += fmt::format("\\x{:02X}", static_cast<unsigned char>(text[at]));
        } else if (is_hidden(sequence)) {
            result += fmt::format("\\u{:04X}", static_cast<std::uint32_t>(code_point(sequence)));
        } else {
            result += sequence;
        }
        at += sequence.size();
    }
    return result;
}

bool is_printable(std::string_view text) {
    return printable(text) == text;
}

std::string json_without_hidden(std::string_view json) {
    std::string result;
    result.reserve(json.size());
    for (std::size_t at = 0; at < json.size();) {
        if (const char c = json[at]; c >= '\0' && c < '\x7F') { // nearly all of it
            result += c;
            ++at;
            continue;
        }
        const std::size_t length = std::max<std::size_t>(1, sequence_length(json.substr(at)));
        const std::string_view sequence = json.substr(at, length);
        const char32_t point = code_point(sequence);
        if (!is_hidden(sequence)) {
            result += sequence;
        } else if (point < 0x10000) {
            result += fmt::format("\\u{:04x}", static_cast<std::uint32_t>(point));
        } else { // as two surrogates (RFC 8259, section 7)
            const auto above = static_cast<std::uint32_t>(point - 0x10000);
            result += fmt::format("\\u{:04x}\\u{:04x}", 0xD800 + (above >> 10U),
                                  0xDC00 + (above & 0x3FFU));
        }
        at += length;
    }
    return result;
}

std::size_t first_invalid_utf8(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = sequence_length(text.substr(at));
        if (length == 0) {
            return at;
        }
        at += length;
    }
    return std::string_view::npos;
}

std::size_t display_width(std::string_view utf8) {
    std::size_t width = 0;
    for (std::size_t at = 0; at < utf8.size();) {
        const std::size_t length = std::max<std::size_t>(1, sequence_length(utf8.substr(at)));
        width += is_combining(utf8.substr(at, length)) ? 0 : 1;
        at += length;
    }
    return width;
}

std::string_view first_columns(std::string_view utf8, std::size_t width) {
    std::size_t at = 0;
    for (std::size_t used = 0; at < utf8.size();) {
        const std::size_t length = std::max<std::size_t>(1, sequence_length(utf8.substr(at)));
        used += is_combining(utf8.substr(at, length)) ? 0 : 1;
        if (used > width) {
            break;
        }
        at += length;
    }
    return utf8.substr(0, at);
}

std::string fitted(std::string_view utf8, std::size_t width) {
    return display_width(utf8) <= width ? std::string(utf8)
                                        : std::string(first_columns(utf8, width - 1)) + "…";
}

std::string padded(std::string_view text, std::size_t width) {
    std::string result = fitted(printable(text), width);
    return result.append(width - display_width(result), ' ');
}

std::string counted(std::int64_t count, std::string_view noun) {
    return std::to_string(count) + ' ' + std::string(noun) + (count == 1 ? "" : "s");
}

std::string counted(std::size_t count, std::string_view noun) {
    return counted(static_cast<std::int64_t>(count), noun);
}

std::string joined(const std::vector<std::string> &names, std::string_view last) {
    std::string text;
    for (std::size_t i = 0; i < names.size(); ++i) {
        text += i == 0 ? "" : i + 1 == names.size() ? last : ", ";
        text += names[i];
    }
    return text;
}

std::uint64_t number_of(std::string_view text) {
    std::uint64_t number = 0xcbf29ce484222325ULL;
    for (const char byte : text) {
        number = (number ^ static_cast<unsigned char>(byte)) * 0x100000001b3ULL;
    }
    return number;
}

} // namespace cospot
