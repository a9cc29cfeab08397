#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// A line of text divided into fields: by tabs, else by ';', else by blanks where that gives
/// numbers only, else by ','. Dividers inside double quotes do not divide; the quotes are taken
/// off, and empty fields at the end as well.
[[nodiscard]] std::vector<std::string> fields_of_line(std::string_view line);

/// A row of numbers, and which decimal signs it has.
struct NumberRow {
    std::vector<double> values{};
    bool has_point = false;
    bool has_comma = false;
};

/// Reads the line into `row`; false where it is not made of two or more numbers and nothing else. A
/// comma is a decimal sign where it does not divide the fields.
[[nodiscard]] bool read_number_row(std::string_view line, NumberRow &row);

} // namespace cospot
