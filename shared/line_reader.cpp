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

} // namespace

LineReader::LineReader(std::istream &in, std::string file, std::string expected)
    : in_(&in), file_(std::move(file)), expected_(std::move(expected)) {}

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

void LineReader::check_encoding(const std::string &text) const {
    const std::size_t bad = std::min(first_invalid_utf8(text), text.find('\0'));
    if (bad != std::string::npos) {
        throw InputError({file_, line_, std::to_string(bad + 1)},
                         fmt::format("byte 0x{:02X}", static_cast<unsigned char>(text[bad])),
                         expected_);
    }
}

} // namespace cospot
