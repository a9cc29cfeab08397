#pragma once

#include "shared/error.h"

#include <cstddef>
#include <string_view>
#include <vector>

namespace cospot {

/// One line of a JCAMP-DX table (X++(Y..Y)), without its factors.
struct OrdinateLine {
    double x = 0.0;                  ///< abscissa of the first ordinate
    double x_digit = 1.0;            ///< what one step of the last digit of x is
    std::vector<double> ordinates{}; ///< at least one
    bool ends_in_difference = false; ///< then the next line begins with the last ordinate again
};

/// Reads a line in any of the forms AFFN (free numbers), PAC (signs as dividers), SQZ (first digit
/// and sign as one letter), DIF (differences) and DUP (repeats), also mixed, as jcamp1988 defines
/// them. Throws InputError with the position of a character that belongs to none of them, of "?"
/// (an ordinate that was not measured), of a difference or repeat without anything before it, for a
/// line without ordinates, and for more than `most` ordinates.
[[nodiscard]] OrdinateLine read_ordinate_line(std::string_view text, const Where &where,
                                              std::size_t most);

} // namespace cospot
