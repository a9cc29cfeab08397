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

} // namespace

LineReader::LineReader(std::istream &in, std::string file, std::string expected)
    : in_(&in), file_(std::move(file)), expected_(std::move(expected)) {}

bool LineReader::next(std::string &text) {
    if (in_->rdbuf()->sgetc() == kEnd) {
        return false;
    }
    ++line_;
    read_bytes(text);
    check_encoding(text);
    return true;
}

/// Read by hand: std::getline would hold a line of any length.
void LineReader::read_bytes(std::string &text) {
    text.clear();
    std::streambuf *buffer = in_->rdbuf();
    for (int c = buffer->sbumpc(); c != kEnd && c != '\n'; c = buffer->sbumpc()) {
        if (text.size() == kLongestLine) {
            throw InputError({file_, line_, ""}, "a line of more than 1 MiB", expected_);
        }
        text += static_cast<char>(c);
        if (c == '\r' && buffer->sgetc() != '\n') { // line ends of old Macintosh files
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
    if (line_ == 1 && (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF"))) {
        throw InputError({file_, 1, ""}, "text in UTF-16", expected_);
    }
    const std::size_t bad = std::min(first_invalid_utf8(text), text.find('\0'));
    if (bad != std::string::npos) {
        throw InputError({file_, line_, std::to_string(bad + 1)},
                         fmt::format("byte 0x{:02X}", static_cast<unsigned char>(text[bad])),
                         expected_);
    }
}

} // namespace cospot
