#include "traces/number_run.h"

#include "shared/text.h"
#include "traces/time_unit.h"
#include "traces/trace_points.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <istream>
#include <utility>

namespace cospot {

namespace {

constexpr std::size_t kMostColumns = 1000;
constexpr std::size_t kLongestHeading = 4096;

/// The words of a heading, in small letters.
std::vector<std::string> words_of(const std::string &heading) {
    std::vector<std::string> words(1);
    for (const char c : lower_ascii(heading)) {
        const bool is_letter = (c >= 'a' && c <= 'z') || static_cast<unsigned char>(c) >= 0x80U;
        if (is_letter) {
            words.back() += c;
        } else if (!words.back().empty()) {
            words.emplace_back();
        }
    }
    if (words.back().empty()) {
        words.pop_back();
    }
    return words;
}

/// The column whose heading names the time, else one whose heading has its unit, else the first.
std::size_t time_column_of(const std::vector<std::string> &headings) {
    constexpr std::array<std::string_view, 6> names{"time", "retention", "rt",
                                                    "tr",   "zeit",      "temps"};
    const auto column_with = [&](auto is_meant) {
        const auto found =
            std::find_if(headings.begin(), headings.end(), [&](const std::string &heading) {
                const std::vector<std::string> words = words_of(heading);
                return std::any_of(words.begin(), words.end(), is_meant);
            });
        return static_cast<std::size_t>(found - headings.begin());
    };
    std::size_t column = column_with([&](const std::string &word) {
        return std::find(names.begin(), names.end(), word) != names.end();
    });
    if (column == headings.size()) {
        column = column_with([](const std::string &word) { return minutes_in(word).has_value(); });
    }
    return column == headings.size() ? 0 : column;
}

/// "min" or "(min)" alone.
bool is_unit_of_time(const std::string &cell) {
    const Heading heading = divided_heading(cell);
    return minutes_in(cell) || (heading.name.empty() && minutes_in(heading.unit));
}

/// Fields of a line of headings: where blanks divide, a unit in brackets belongs to the word
/// before.
std::vector<std::string> heading_fields(const std::string &line) {
    std::vector<std::string> fields;
    for (std::string &field : fields_of_line(std::string_view(line).substr(0, kLongestHeading))) {
        if (!fields.empty() && (field.starts_with('(') || field.starts_with('['))) {
            fields.back() += ' ' + field;
        } else {
            fields.push_back(std::move(field));
        }
    }
    return fields;
}

/// Goes through the lines of a text.
class RunFinder {
public:
    RunFinder(std::istream &in, const std::string &file)
        : lines_(in, file, "text of numbers in UTF-8") {}

    NumberRuns find() {
        std::string line;
        while (next(line)) {
            if (trimmed(line).empty()) {
                continue;
            }
            if (read_number_row(line, row_)) {
                add_row(line);
            } else {
                end_run(line);
                above_ = {std::move(above_[1]), line.substr(0, kLongestHeading)};
            }
        }
        end_run("");
        return std::move(runs_);
    }

private:
    /// A line that is no text is passed over, as a heading in another encoding.
    bool next(std::string &line) {
        while (true) {
            try {
                return lines_.next(line);
            } catch (const InputError &fault) {
                if (!runs_.unreadable) {
                    runs_.unreadable.emplace(fault);
                }
                end_run("text that cannot be read");
                above_ = {};
            }
        }
    }

    [[nodiscard]] Where here() const { return {lines_.file(), lines_.line(), ""}; }

    void add_row(const std::string &line) {
        if (run_.columns.size() != row_.values.size()) {
            end_run(line);
            begin_run();
        }
        check_amount();
        check_decimal_signs();
        const std::vector<double> &times = run_.columns[run_.time_column];
        const double time = row_.values[run_.time_column];
        if (!times.empty() && time <= times.back() && !run_.fault) {
            run_.fault.emplace(here(), fmt::format("the time {} after {}", time, times.back()),
                               "times that rise from row to row");
        }
        for (std::size_t i = 0; i < row_.values.size(); ++i) {
            run_.columns[i].push_back(row_.values[i]);
        }
        run_.last_line = lines_.line();
    }

    void begin_run() {
        if (row_.values.size() > kMostColumns) {
            throw InputError(here(), fmt::format("a row of {} numbers", row_.values.size()),
                             fmt::format("at most {} in a row", kMostColumns));
        }
        run_.columns.resize(row_.values.size());
        run_.first_line = lines_.line();
        take_headings();
        const bool goes_on = long_run_columns_ == row_.values.size() &&
                             row_.values[run_.time_column] > long_run_end_;
        if (goes_on && !runs_.broken) {
            runs_.broken.emplace(break_, break_text_ + " inside a trace",
                                 fmt::format("a row of {} numbers", row_.values.size()));
        }
    }

    void take_headings() {
        const std::size_t count = run_.columns.size();
        std::vector<std::string> upper = heading_fields(above_[0]);
        std::vector<std::string> lower = heading_fields(above_[1]);
        run_.above = upper;
        run_.above.insert(run_.above.end(), lower.begin(), lower.end());
        if (lower.size() != count) {
            return;
        }
        const bool is_line_of_units =
            upper.size() == count && std::any_of(lower.begin(), lower.end(), is_unit_of_time);
        if (is_line_of_units) {
            run_.names = std::move(upper);
            run_.units = std::move(lower);
        } else {
            run_.names = std::move(lower);
        }
        run_.time_column = time_column_of(run_.names);
    }

    void check_amount() const {
        const std::size_t rows = run_.rows() + 1;
        check_count(rows, here());
        if (rows * (run_.columns.size() - 1) > kMostPointsOfFile) {
            throw InputError(here(), "more points together than are read",
                             fmt::format("at most {} points in a file", kMostPointsOfFile));
        }
    }

    /// One sign for all: the other one would divide thousands.
    void check_decimal_signs() {
        if (run_.rows() == 0) {
            has_point_ = false;
            has_comma_ = false;
        }
        has_point_ = has_point_ || row_.has_point;
        has_comma_ = has_comma_ || row_.has_comma;
        if (has_point_ && has_comma_ && !run_.fault) {
            run_.fault.emplace(here(), "decimal points beside decimal commas",
                               "one decimal sign, and no sign between thousands");
        }
    }

    void end_run(const std::string &broken_by) {
        const std::size_t rows = run_.rows();
        if (rows >= kFewestRows) {
            long_run_columns_ = run_.columns.size();
            long_run_end_ = run_.columns[run_.time_column].back();
            break_ = here();
            break_text_ = in_quotes(broken_by);
            const bool is_longest = rows > runs_.longest.rows();
            runs_.other_rows += is_longest ? runs_.longest.rows() : rows;
            if (is_longest) {
                runs_.longest = std::move(run_);
            }
        }
        if (rows > 0) {
            above_ = {};
        }
        run_ = {};
    }

    LineReader lines_;
    NumberRow row_;
    NumberRun run_;
    bool has_point_ = false;
    bool has_comma_ = false;
    std::array<std::string, 2> above_{}; ///< the last lines that are no rows, since the last run
    std::size_t long_run_columns_ = 0;   ///< of the last run of 10 rows or more; 0: none yet
    double long_run_end_ = 0.0;          ///< its last time
    Where break_{};                      ///< the line that ended it
    std::string break_text_;
    NumberRuns runs_;
};

} // namespace

NumberRuns number_runs(std::istream &in, const std::string &file) {
    return RunFinder(in, file).find();
}

Heading divided_heading(const std::string &heading) {
    const std::string_view text = trimmed(heading);
    const std::size_t open = text.find_last_of("([");
    if (open == std::string_view::npos || !(text.ends_with(')') || text.ends_with(']'))) {
        const std::size_t stroke = text.rfind('/'); // quantity / unit, as ISO 80000-1 has it
        return stroke == std::string_view::npos
                   ? Heading{std::string(text), ""}
                   : Heading{std::string(trimmed(text.substr(0, stroke))),
                             std::string(trimmed(text.substr(stroke + 1)))};
    }
    const std::string_view unit = text.substr(open + 1, text.size() - open - 2);
    return {std::string(trimmed(text.substr(0, open))), std::string(trimmed(unit))};
}

std::string time_unit_of(const std::string &heading) {
    std::string unit;
    for (const std::string &word : words_of(heading)) {
        if (minutes_in(word)) {
            if (!unit.empty() && *minutes_in(word) != *minutes_in(unit)) {
                return ""; // two units: neither is meant for sure
            }
            unit = word;
        }
    }
    return unit.empty() ? divided_heading(heading).unit : unit;
}

} // namespace cospot
