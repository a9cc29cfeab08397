#pragma once

#include "shared/line_reader.h"

#include <cstddef>
#include <exception>
#include <iosfwd>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// Reads records of delimiter-separated text (RFC 4180 with ',', ';' or tab, told from the first
/// line): in an encoding that LineReader reads, any line ends, quoted fields that may span lines.
/// One record is held at a time. Lines that are empty or hold delimiters only are passed over.
/// Throws InputError for text in another encoding, an open quote, or a line over 1 MiB.
class CsvReader {
public:
    CsvReader(std::istream &in, std::string file);

    /// Reads the next record; false at the end.
    [[nodiscard]] bool next();

    /// Keeps the lines from here on, until `go_back` goes to the first of them.
    void keep_lines() { keeps_lines_ = true; }
    void go_back();
    /// As `next`, but the first line of the record tells the delimiter, of what follows, too: lines
    /// above a header may have another one.
    [[nodiscard]] bool next_with_own_delimiter();

    [[nodiscard]] const std::vector<std::string> &fields() const noexcept { return fields_; }
    /// Line on which the record starts, from 1.
    [[nodiscard]] std::size_t line() const noexcept { return record_line_; }
    [[nodiscard]] const std::string &file() const noexcept { return lines_.file(); }
    /// As LineReader has it.
    [[nodiscard]] std::size_t first_of_windows_1252() const noexcept {
        return lines_.first_of_windows_1252();
    }
    /// ',', ';' or tab, once a record has been read.
    [[nodiscard]] char delimiter() const noexcept { return delimiter_; }

private:
    /// A line of the file, or what refused it.
    struct KeptLine {
        std::string text;
        std::size_t number = 0;
        std::exception_ptr fault{};
    };

    bool next_line();
    bool read_line(KeptLine &line);
    void split_record();
    std::size_t read_quoted(std::size_t at, std::string &field);

    LineReader lines_;
    bool keeps_lines_ = false;
    std::vector<KeptLine> kept_;
    std::size_t next_kept_ = 0;
    char delimiter_ = '\0';
    std::string text_;
    std::size_t line_ = 0; ///< of `text_`
    std::size_t record_line_ = 0;
    std::vector<std::string> fields_;
};

/// One field of delimiter-separated text, quoted where RFC 4180 asks for it. A text that a
/// spreadsheet would take for a formula gets a leading apostrophe, which `without_guard` removes.
[[nodiscard]] std::string csv_field(std::string_view text);

/// The text without the apostrophe that `csv_field` put before it; other texts are kept.
[[nodiscard]] std::string_view without_guard(std::string_view text);

} // namespace cospot
