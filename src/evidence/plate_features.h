#pragma once

#include "readers/feature.h"
#include "readers/plate_table.h"

#include <string>
#include <vector>

namespace cospot {

/// How a plate is to be read.
struct PlateReading {
    std::string system;
    double reading_error_mm = 0.5;   ///< standard uncertainty of each distance
    bool is_outside_library = false; ///< the library does not hold the system
};

/// Turns the sample spots of a plate into features with R_F and its uncertainty, and its standards
/// into standards of the run. Throws InputError for a second spot of a standard in one lane.
[[nodiscard]] FeatureSet plate_features(const std::vector<PlateSpot> &spots,
                                        const PlateReading &reading, const std::string &file);

} // namespace cospot
