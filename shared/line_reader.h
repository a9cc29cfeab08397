#pragma once

#include "shared/error.h"

#include <cstddef>
#include <iosfwd>
#include <string>
#include <string_view>

namespace cospot {

/// What text may be that is not Unicode.
enum class OtherText {
    refused,
    windows_1252, ///< as spreadsheets of western Europe and America save it
};

/// Reads lines of text as UTF-8: UTF-8 with or without byte-order mark, UTF-16 with one, or, where
/// that is allowed, Windows-1252; any line ends, one line held at a time. Throws InputError for
/// other text or a zero byte, and for a line over 1 MiB; `next` may be called again and goes on
/// behind what was refused.
class LineReader {
public:
    /// `expected` says what the file should be, for messages: "a list of SMILES in UTF-8".
    LineReader(std::istream &in, std::string file, std::string expected,
               OtherText other = OtherText::refused);

    /// Reads the next line, without its end; false at the end of the file.
    [[nodiscard]] bool next(std::string &text);

    /// Number of the line that was read last, from 1.
    [[nodiscard]] std::size_t line() const noexcept { return line_; }
    [[nodiscard]] const std::string &file() const noexcept { return file_; }
    /// The first line that was taken for Windows-1252; 0 where none was.
    [[nodiscard]] std::size_t first_of_windows_1252() const noexcept { return windows_1252_; }

private:
    enum class Encoding { utf8, utf16_little, utf16_big };

    void find_encoding();
    int next_byte();
    int next_of_utf16();
    int next_unit();
    void skip_line_feed();
    void read_bytes(std::string &text);
    void check_encoding(std::string &text);
    [[nodiscard]] bool is_windows_1252(std::string_view text) const;

    std::istream *in_;
    std::string file_;
    std::string expected_;
    OtherText other_;
    std::size_t line_ = 0;
    std::size_t windows_1252_ = 0;
    bool has_utf8_ = false; ///< a character of several bytes was read
    Encoding encoding_ = Encoding::utf8;
    std::string decoded_; ///< of a character of UTF-16, what is left to be read, last byte first
};

} // namespace cospot
