#pragma once

#include "library/database.h"
#include "library/measurements.h"

#include <vector>

namespace cospot::library {

/// Ids of the values that hold for this compound, run and quantity.
[[nodiscard]] std::vector<MeasurementId> held_values(Database &database, CompoundId compound,
                                                     RunId run, Quantity quantity);

/// Whether the value says all that `measurement` does: number, uncertainty, source and note.
[[nodiscard]] bool says_the_same(Database &database, MeasurementId value,
                                 const Measurement &measurement);

/// Stores a corrected value; the old one is superseded by it and stays readable.
void supersede(Database &database, MeasurementId old_value, const Measurement &corrected,
               ChangeId change);

} // namespace cospot::library
