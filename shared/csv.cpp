#include "shared/csv.h"

#include "shared/text.h"

#include <algorithm>
#include <array>
#include <utility>

namespace cospot {

namespace {

constexpr std::size_t kLongestField = 1U << 20U;

/// The delimiter that the header line holds most often outside quotes.
char most_frequent_delimiter(std::string_view header) {
    constexpr std::array<char, 3> delimiters{',', ';', '\t'};
    std::array<std::size_t, 3> counts{};
    bool in_quotes = false;
    for (const char c : header) {
        in_quotes = in_quotes != (c == '"');
        for (std::size_t i = 0; i < delimiters.size(); ++i) {
            counts[i] += !in_quotes && c == delimiters[i] ? 1 : 0;
        }
    }
    const auto best = std::max_element(counts.begin(), counts.end()) - counts.begin();
    return delimiters[static_cast<std::size_t>(best)];
}

/// Whether a spreadsheet would compute the text: apostrophes, then '=', '+', '-', '@', a tab
/// or a line end.
bool looks_like_formula(std::string_view text) {
    const std::size_t start = std::min(text.find_first_not_of('\''), text.size());
    return start < text.size() &&
           std::string_view("=+-@\t\r\n").find(text[start]) != std::string_view::npos;
}

} // namespace

CsvReader::CsvReader(std::istream &in, std::string file)
    : lines_(in, std::move(file), "a table in UTF-8 text (in a spreadsheet: save as CSV UTF-8)",
             OtherText::windows_1252) {}

void CsvReader::go_back() {
    keeps_lines_ = false;
    next_kept_ = 0;
}

bool CsvReader::next_with_own_delimiter() {
    delimiter_ = '\0';
    return next();
}

/// The next line of the file, whether it is refused or not; false at the end.
bool CsvReader::read_line(KeptLine &line) {
    bool is_there = true;
    try {
        is_there = lines_.next(line.text);
    } catch (const InputError &) {
        line.fault = std::current_exception();
    }
    line.number = lines_.line();
    return is_there;
}

/// Moves to the next line: one that was kept, else one of the file.
bool CsvReader::next_line() {
    if (!keeps_lines_ && next_kept_ >= kept_.size()) {
        kept_.clear();
        next_kept_ = 0;
        const bool is_there = lines_.next(text_);
        line_ = lines_.line();
        return is_there;
    }
    if (next_kept_ == kept_.size()) {
        KeptLine line;
        if (!read_line(line)) {
            return false;
        }
        kept_.push_back(std::move(line));
    }
    const KeptLine &line = kept_[next_kept_++];
    line_ = line.number;
    if (line.fault) {
        std::rethrow_exception(line.fault);
    }
    text_ = line.text;
    return true;
}

bool CsvReader::next() {
    while (next_line()) {
        if (delimiter_ == '\0' && !trimmed(text_).empty()) {
            delimiter_ = most_frequent_delimiter(text_);
        }
        record_line_ = line_;
        split_record();
        const bool blank =
            std::all_of(fields_.begin(), fields_.end(),
                        [](const std::string &field) { return trimmed(field).empty(); });
        if (!blank) {
            return true;
        }
    }
    return false;
}

void CsvReader::split_record() {
    std::size_t count = 0;
    std::size_t at = 0;
    while (true) {
        if (count == fields_.size()) {
            fields_.emplace_back();
        }
        std::string &field = fields_[count++];
        field.clear();
        const bool is_quoted = at < text_.size() && text_[at] == '"';
        if (is_quoted) {
            at = read_quoted(at + 1, field);
        }
        const std::size_t end = std::min(text_.find(delimiter_, at), text_.size());
        if (is_quoted && !trimmed(std::string_view(text_).substr(at, end - at)).empty()) {
            throw InputError({file(), line_, std::to_string(at + 1)}, "text behind a closing quote",
                             "the next field (a quote inside a field is written twice)");
        }
        field.append(text_, at, end - at);
        if (end >= text_.size()) {
            break;
        }
        at = end + 1;
    }
    fields_.resize(count);
}

/// Reads a quoted field whose text starts at `at`; returns the offset behind its closing quote.
std::size_t CsvReader::read_quoted(std::size_t at, std::string &field) {
    while (true) {
        const std::size_t quote = text_.find('"', at);
        if (quote == std::string::npos) {
            field.append(text_, at, std::string::npos);
            if (field.size() > kLongestField || !next_line()) {
                throw InputError({file(), record_line_, ""}, "a quoted field that is never closed",
                                 "a closing '\"'");
            }
            field += '\n';
            at = 0;
        } else if (quote + 1 < text_.size() && text_[quote + 1] == '"') {
            field.append(text_, at, quote + 1 - at);
            at = quote + 2;
        } else {
            field.append(text_, at, quote - at);
            return quote + 1;
        }
    }
}

std::string csv_field(std::string_view text) {
    std::string result = looks_like_formula(text) ? "'" : "";
    result += text;
    if (result.find_first_of(",;\t\"\r\n") == std::string::npos) {
        return result;
    }
    std::string escaped = "\"";
    for (const char c : result) {
        escaped += c;
        if (c == '"') {
            escaped += '"';
        }
    }
    return escaped + "\"";
}

std::string_view without_guard(std::string_view text) {
    return text.starts_with('\'') && looks_like_formula(text.substr(1)) ? text.substr(1) : text;
}

} // namespace cospot
