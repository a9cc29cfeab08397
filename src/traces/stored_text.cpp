#include "traces/stored_text.h"

#include "shared/text.h"

#include <algorithm>

namespace cospot {

std::string stored_text(std::string_view bytes) {
    const std::string_view text = trimmed(bytes.substr(0, bytes.find('\0')));
    if (first_invalid_utf8(text) == std::string_view::npos) {
        return std::string(text);
    }
    std::string utf8;
    for (const char c : text) { // its 256 characters are the first of Unicode
        const auto byte = static_cast<unsigned char>(c);
        if (byte < 0x80U) {
            utf8 += c;
        } else {
            utf8 += static_cast<char>(0xC0U | (byte >> 6U));
            utf8 += static_cast<char>(0x80U | (byte & 0x3FU));
        }
    }
    return utf8;
}

std::string iso_time_stamp(std::string_view stamp) {
    constexpr std::size_t digits = 14;
    constexpr std::size_t offset = 5;
    const std::string_view text = trimmed(stamp);
    const std::string_view zone = text.substr(std::min(digits, text.size()));
    const bool has_zone = zone.size() == offset && (zone[0] == '+' || zone[0] == '-') &&
                          std::all_of(zone.begin() + 1, zone.end(), is_digit);
    if (text.size() < digits || !std::all_of(text.begin(), text.begin() + digits, is_digit) ||
        !(zone.empty() || has_zone)) {
        return std::string(text);
    }
    const auto part = [&](std::size_t at, std::size_t size) {
        return std::string(text.substr(at, size));
    };
    std::string iso = part(0, 4) + '-' + part(4, 2) + '-' + part(6, 2) + 'T' + part(8, 2) + ':' +
                      part(10, 2) + ':' + part(12, 2);
    if (has_zone) {
        iso += part(14, 3) + ':' + part(17, 2);
    }
    return iso;
}

} // namespace cospot
