#pragma once

#include "shared/error.h"
#include "shared/line_reader.h"
#include "traces/number_row.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// Rows of numbers of a text that follow each other, each with as many numbers.
struct NumberRun {
    std::vector<std::vector<double>> columns{}; ///< all of one length
    std::size_t first_line = 0;
    std::size_t last_line = 0;
    std::size_t time_column = 0;       ///< by the headings, else the first
    std::vector<std::string> names{};  ///< headings, one a column; empty where there are none
    std::vector<std::string> units{};  ///< those of a second line of headings; else empty
    std::vector<std::string> above{};  ///< all fields of the two lines above, whatever they are
    std::optional<InputError> fault{}; ///< the first time that does not rise, or mixed decimals

    [[nodiscard]] std::size_t rows() const { return columns.empty() ? 0 : columns[0].size(); }
};

/// The runs of a text, of which the longest is kept.
struct NumberRuns {
    NumberRun longest{};
    std::optional<InputError> broken{};     ///< a line inside what seems to be one run
    std::optional<InputError> unreadable{}; ///< the first line that is no text
    std::size_t other_rows = 0;             ///< of other runs of 10 rows or more
};

/// A run has to have this many rows to be one.
inline constexpr std::size_t kFewestRows = 10;

/// Goes through all lines. Throws InputError for more numbers than are read.
[[nodiscard]] NumberRuns number_runs(std::istream &in, const std::string &file);

/// A heading without its unit, and that unit: in brackets at the end, or behind the last '/'.
struct Heading {
    std::string name;
    std::string unit;
};
[[nodiscard]] Heading divided_heading(const std::string &heading);

/// The unit of time that a heading names, "min" for "Time (min)" or "t/min"; the text in brackets
/// where it is none; else empty.
[[nodiscard]] std::string time_unit_of(const std::string &heading);

} // namespace cospot
