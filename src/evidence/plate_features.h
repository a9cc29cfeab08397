#pragma once

#include "readers/feature.h"
#include "readers/plate_table.h"

#include <string>
#include <vector>

namespace cospot {

/// How a plate is to be read.
struct PlateReading {
    std::string system;
    std::string plate{};             ///< its name, where there are several
    double reading_error_mm = 0.5;   ///< standard uncertainty of each distance
    double front_error_mm = 0.0;     ///< more of the front's, where it is estimated
    bool is_outside_library = false; ///< the library does not hold the system
};

/// Turns the sample spots of a plate into features with R_F and its uncertainty, and its standards
/// into standards of the run. Each spot has a front. The name of the plate is that of the run, and
/// stands before the names of its samples.
[[nodiscard]] FeatureSet plate_features(const std::vector<PlateSpot> &spots,
                                        const PlateReading &reading, const std::string &file);

} // namespace cospot
