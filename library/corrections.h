#pragma once

#include "library/database.h"
#include "library/measurements.h"

#include <cstdint>
#include <vector>

namespace cospot::library {

/// Ids of the values that hold for this compound, run and quantity.
[[nodiscard]] std::vector<std::int64_t> held_values(Database &database, std::int64_t compound,
                                                    std::int64_t run, Quantity quantity);

/// Whether the value says all that `measurement` does: number, uncertainty, source and note.
[[nodiscard]] bool says_the_same(Database &database, std::int64_t value,
                                 const Measurement &measurement);

/// Stores a corrected value; the old one is superseded by it and stays readable.
void supersede(Database &database, std::int64_t old_value, const Measurement &corrected,
               std::int64_t change);

} // namespace cospot::library
