#pragma once

#include "shared/table.h"

#include <optional>

namespace cospot {

/// No instrument or balance gives a number beyond this in min, mm or units of area. Sums and
/// squares of numbers below it stay finite.
inline constexpr double kLargestOfInstruments = 1e12;

/// A fault of the row where the number of that column of the row, if there is one, is larger.
void check_of_instrument(const TableReader &table, const char *column,
                         const std::optional<double> &number);

} // namespace cospot
