#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace cospot {

/// A number as a table writes it, with its signs told apart.
struct WrittenNumber {
    double value = 0.0;
    char decimal = '\0';     ///< '.' or ',', also where only the sign between thousands tells it
    bool has_groups = false; ///< a sign or blank stood between groups of three digits
};

/// Tells the decimal sign from what stands between thousands, where that can be told: both signs
/// are there (1.112,4 or 1,112.4), one of them twice (1.112.400), or a blank between groups of
/// three digits (1 112,4). One sign alone is the decimal sign: 1.112 may be meant as 1112, which
/// nothing in it tells. Empty for what is no such number.
[[nodiscard]] std::optional<WrittenNumber> written_number(std::string_view text);

/// What stands behind "ca.", "approx.", "about", "~" and the like (common practice, no source); the
/// text itself, without blanks at its ends, where no such word stands before it.
[[nodiscard]] std::string_view behind_about(std::string_view text);

/// The decimal sign of one table. All numbers of a table have the same.
class DecimalSign {
public:
    /// The value of a number that stands in `line`, whose signs are noted; empty where the table's
    /// numbers had the other decimal sign before, and then `contradiction` says so in words.
    [[nodiscard]] std::optional<double> read(const WrittenNumber &number, std::size_t line,
                                             std::string &contradiction);
    /// The first line with a number of decimal comma, and with groups of three; 0: none.
    [[nodiscard]] std::size_t line_with_comma() const noexcept { return line_with_comma_; }
    [[nodiscard]] std::size_t line_with_groups() const noexcept { return line_with_groups_; }

private:
    std::size_t line_with_point_ = 0;
    std::size_t line_with_comma_ = 0;
    std::size_t line_with_groups_ = 0;
};

} // namespace cospot
