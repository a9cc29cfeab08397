#pragma once

#include "integration/photographed_plate.h"
#include "readers/column_table.h"
#include "readers/fraction_table.h"
#include "readers/plate_table.h"

#include <string>
#include <vector>

namespace cospot {

/// The spots as the rows of a table of a plate: a lane without a name is a sample without a label.
/// Throws InputError where no start line is known.
[[nodiscard]] std::vector<PlateSpot> plate_rows(const PhotographedPlate &plate,
                                                const PhotoSettings &settings);

/// The lanes as fractions: numbered as they stand, or by the numbers that the user names them with;
/// a lane of a standard is one. Throws InputError where R_F cannot be told.
[[nodiscard]] FractionTable fraction_rows(const PhotographedPlate &plate,
                                          const PhotoSettings &settings);

/// The spots of the sample's lane as compounds "spot 1", "spot 2", ... of a column. Throws
/// InputError where R_F cannot be told, and where it is not said which of several lanes is meant.
[[nodiscard]] ColumnTable column_rows(const PhotographedPlate &plate,
                                      const PhotoSettings &settings);

} // namespace cospot
