#pragma once

#include "library/database.h"
#include "library/systems.h"
#include "readers/plate_table.h"

#include <span>
#include <string>

namespace cospot {

/// Where the solvent front of a plate must have been, in mm from the start.
struct EstimatedFront {
    double distance_mm = 0.0;
    double error_mm = 0.0; ///< standard uncertainty
    std::size_t standards = 0;
};

/// The front of a plate on which nobody marked it, from the standards that the library holds on the
/// system: distances over R_F, by least squares through the start. A standard moves from plate to
/// plate by 0.03 in R_F (standard deviation; common practice, no source); one below 0.2 tells too
/// little. Throws InputError where no standard tells, and where a spot lies beyond the front by
/// more than the front's own error allows.
[[nodiscard]] EstimatedFront front_from_standards(std::span<const PlateSpot> plate,
                                                  library::Database &database,
                                                  const library::System &system,
                                                  double reading_error_mm, const std::string &file);

} // namespace cospot
