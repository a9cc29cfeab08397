#pragma once

#include "shared/error.h"

#include <cstddef>
#include <iosfwd>
#include <string>

namespace cospot {

/// Reads lines of text as UTF-8: UTF-8 with or without byte-order mark, or UTF-16 with one; any
/// line ends, one line held at a time. Throws InputError for other text or a zero byte, and for a
/// line over 1 MiB; `next` may be called again and goes on behind what was refused.
class LineReader {
public:
    /// `expected` says what the file should be, for messages: "a list of SMILES in UTF-8".
    LineReader(std::istream &in, std::string file, std::string expected);

    /// Reads the next line, without its end; false at the end of the file.
    [[nodiscard]] bool next(std::string &text);

    /// Number of the line that was read last, from 1.
    [[nodiscard]] std::size_t line() const noexcept { return line_; }
    [[nodiscard]] const std::string &file() const noexcept { return file_; }

private:
    enum class Encoding { utf8, utf16_little, utf16_big };

    void find_encoding();
    int next_byte();
    int next_of_utf16();
    int next_unit();
    void skip_line_feed();
    void read_bytes(std::string &text);
    void check_encoding(const std::string &text) const;

    std::istream *in_;
    std::string file_;
    std::string expected_;
    std::size_t line_ = 0;
    Encoding encoding_ = Encoding::utf8;
    std::string decoded_; ///< of a character of UTF-16, what is left to be read, last byte first
};

} // namespace cospot
