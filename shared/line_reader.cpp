#include "shared/line_reader.h"

#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <istream>
#include <utility>

namespace cospot {

namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
constexpr std::size_t kLongestLine = 1U << 20U;
constexpr int kEnd = std::char_traits<char>::eof();

/// A code point in UTF-8 (RFC 3629, section 3), its last byte first.
std::string utf8_backwards(char32_t point) {
    std::string bytes;
    const auto add = [&](char32_t byte) { bytes += static_cast<char>(byte); };
    if (point < 0x80) {
        add(point);
        return bytes;
    }
    const unsigned more = point < 0x800 ? 1 : point < 0x10000 ? 2 : 3; // bytes behind the first
    for (unsigned i = 0; i < more; ++i) {
        add(0x80U | (point & 0x3FU));
        point >>= 6U;
    }
    add(((0xFF00U >> (more + 1)) & 0xFFU) | point);
    return bytes;
}

/// The code point of a byte of Windows-1252 (Unicode Consortium, mapping table CP1252, from
/// memory; the test compares it with the C library's); 0 for a zero byte and for what is none.
char32_t point_of_windows_1252(unsigned char byte) {
    constexpr char32_t from_80[]{0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021,
                                 0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0,      0x017D, 0,
                                 0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014,
                                 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};
    return byte >= 0x80 && byte < 0xA0 ? from_80[byte - 0x80] : byte;
}

std::string utf8_of_windows_1252(std::string_view text) {
    std::string utf8;
    for (const char c : text) {
        std::string bytes = utf8_backwards(point_of_windows_1252(static_cast<unsigned char>(c)));
        utf8.append(bytes.rbegin(), bytes.rend());
    }
    return utf8;
}

} // namespace

LineReader::LineReader(std::istream &in, std::string file, std::string expected, OtherText other)
    : in_(&in), file_(std::move(file)), expected_(std::move(expected)), other_(other) {}

bool LineReader::next(std::string &text) {
    if (line_ == 0) {
        find_encoding();
    }
    if (decoded_.empty() && in_->rdbuf()->sgetc() == kEnd) {
        return false;
    }
    ++line_;
    read_bytes(text);
    check_encoding(text);
    return true;
}

/// UTF-16 is told by its byte-order mark (The Unicode Standard, 23.8), as spreadsheets write it.
void LineReader::find_encoding() {
    std::streambuf *buffer = in_->rdbuf();
    const int first = buffer->sgetc();
    if (first != 0xFF && first != 0xFE) {
        return;
    }
    buffer->sbumpc();
    if (buffer->sgetc() != (first == 0xFF ? 0xFE : 0xFF)) {
        throw InputError({file_, 1, "1"}, fmt::format("byte 0x{:02X}", first), expected_);
    }
    buffer->sbumpc();
    encoding_ = first == 0xFF ? Encoding::utf16_little : Encoding::utf16_big;
}

int LineReader::next_byte() {
    return encoding_ == Encoding::utf8 ? in_->rdbuf()->sbumpc() : next_of_utf16();
}

/// The next byte of the text in UTF-8.
int LineReader::next_of_utf16() {
    if (decoded_.empty()) {
        const int unit = next_unit();
        if (unit == kEnd) {
            return kEnd;
        }
        auto point = static_cast<char32_t>(unit);
        if (point >= 0xD800 && point < 0xE000) { // one of two units (The Unicode Standard, D91)
            const int low = point < 0xDC00 ? next_unit() : kEnd;
            if (low < 0xDC00 || low > 0xDFFF) {
                throw InputError({file_, line_, ""}, "half a character of UTF-16", expected_);
            }
            point = 0x10000 + ((point - 0xD800) << 10U) + (static_cast<char32_t>(low) - 0xDC00);
        }
        decoded_ = utf8_backwards(point);
    }
    const auto byte = static_cast<unsigned char>(decoded_.back());
    decoded_.pop_back();
    return byte;
}

int LineReader::next_unit() {
    const int first = in_->rdbuf()->sbumpc();
    if (first == kEnd) {
        return kEnd;
    }
    const int second = in_->rdbuf()->sbumpc();
    if (second == kEnd) {
        throw InputError({file_, line_, ""}, "half a character of UTF-16", expected_);
    }
    return encoding_ == Encoding::utf16_little ? first + 256 * second : 256 * first + second;
}

/// The second half of a line end of two characters.
void LineReader::skip_line_feed() {
    if (encoding_ == Encoding::utf8) {
        if (in_->rdbuf()->sgetc() == '\n') {
            in_->rdbuf()->sbumpc();
        }
        return;
    }
    const int next = next_of_utf16();
    if (next != '\n' && next != kEnd) {
        decoded_.push_back(static_cast<char>(next));
    }
}

/// Read by hand: std::getline would hold a line of any length.
void LineReader::read_bytes(std::string &text) {
    text.clear();
    for (int c = next_byte(); c != kEnd && c != '\n'; c = next_byte()) {
        if (text.size() == kLongestLine) {
            throw InputError({file_, line_, ""}, "a line of more than 1 MiB", expected_);
        }
        text += static_cast<char>(c);
        if (c == '\r') {
            skip_line_feed();
            break;
        }
    }
    while (!text.empty() && text.back() == '\r') {
        text.pop_back();
    }
    if (line_ == 1 && text.starts_with(kByteOrderMark)) {
        text.erase(0, kByteOrderMark.size());
    }
}

bool LineReader::is_windows_1252(std::string_view text) const {
    return other_ == OtherText::windows_1252 && encoding_ == Encoding::utf8 && !has_utf8_ &&
           std::none_of(text.begin(), text.end(), [](char c) {
               return point_of_windows_1252(static_cast<unsigned char>(c)) == 0;
           });
}

/// Once a line is no UTF-8, the whole file is of the other kind: what looks like UTF-8 behind it is
/// not.
void LineReader::check_encoding(std::string &text) {
    const std::size_t bad = std::min(first_invalid_utf8(text), text.find('\0'));
    if ((bad != std::string::npos || windows_1252_ > 0) && is_windows_1252(text)) {
        windows_1252_ = windows_1252_ == 0 ? line_ : windows_1252_;
        text = utf8_of_windows_1252(text);
        return;
    }
    has_utf8_ = has_utf8_ || std::any_of(text.begin(), text.end(), [](char c) {
                    return static_cast<unsigned char>(c) >= 0x80;
                });
    if (bad != std::string::npos) {
        throw InputError({file_, line_, std::to_string(bad + 1)},
                         fmt::format("byte 0x{:02X}", static_cast<unsigned char>(text[bad])),
                         expected_);
    }
}

} // namespace cospot
