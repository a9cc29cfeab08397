#pragma once

#include "shared/error.h"

#include <cstddef>
#include <iosfwd>
#include <string>

namespace cospot {

/// Reads lines of text: UTF-8 with or without byte-order mark, any line ends, one line held at a
/// time. Throws InputError for text that is not UTF-8 or holds a zero byte, and for a line over
/// 1 MiB; `next` may be called again and goes on behind what was refused.
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
    void read_bytes(std::string &text);
    void check_encoding(const std::string &text) const;

    std::istream *in_;
    std::string file_;
    std::string expected_;
    std::size_t line_ = 0;
};

} // namespace cospot
