#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// Without blanks (space, tab, carriage return, no-break space) at both ends.
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// A line without the blanks at its end.
[[nodiscard]] std::string without_end_blanks(std::string line);

/// ASCII letters in lower case; other bytes are kept.
[[nodiscard]] std::string lower_ascii(std::string_view text);

/// Equal but for the case of ASCII letters.
[[nodiscard]] bool equal_ignoring_case(std::string_view a, std::string_view b);

/// The text in quotes for a message: control characters escaped, cut after `max_length` bytes.
[[nodiscard]] std::string in_quotes(std::string_view text, std::size_t max_length = 60);

/// The text made safe for people: control characters (escape sequences among them), marks that turn
/// the direction of writing and characters that are not seen are escaped as \uXXXX, what is no
/// UTF-8 as \xXX.
[[nodiscard]] std::string printable(std::string_view text);

/// Whether there is nothing to escape.
[[nodiscard]] bool is_printable(std::string_view text);

/// JSON with the same characters escaped that `printable` escapes; line ends between values stay.
[[nodiscard]] std::string json_without_hidden(std::string_view json);

/// Offset of the first byte that is not well-formed UTF-8 (RFC 3629), or npos.
[[nodiscard]] std::size_t first_invalid_utf8(std::string_view text);

/// "1 value", "2 values": for nouns whose plural ends in s.
[[nodiscard]] std::string counted(std::int64_t count, std::string_view noun);
[[nodiscard]] std::string counted(std::size_t count, std::string_view noun);

/// Of the numerals 0 to 9, whatever the locale.
[[nodiscard]] constexpr bool is_digit(char sign) {
    return sign >= '0' && sign <= '9';
}

/// "a, b and c", or with another divider before the last.
[[nodiscard]] std::string joined(const std::vector<std::string> &names,
                                 std::string_view last = " and ");

/// Columns that the text takes on a terminal: code points, combining marks not counted.
[[nodiscard]] std::size_t display_width(std::string_view utf8);

/// The longest beginning of the text that takes at most `width` terminal columns.
[[nodiscard]] std::string_view first_columns(std::string_view utf8, std::size_t width);

/// The text cut to at most `width` terminal columns, with a final ellipsis where it was cut.
[[nodiscard]] std::string fitted(std::string_view utf8, std::size_t width);

/// The text made `printable` and exactly `width` terminal columns wide: cut, or filled with blanks.
[[nodiscard]] std::string padded(std::string_view text, std::size_t width);

/// A number that stands for the text, the same on every computer: FNV-1a of 64 bits (fnv1991, from
/// memory). Not against anybody who wants two texts to have the same one.
[[nodiscard]] std::uint64_t number_of(std::string_view text);

} // namespace cospot
