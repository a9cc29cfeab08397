#pragma once

#include "evidence/feature.h"
#include "quantities/uncertain.h"
#include "readers/plate_table.h"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// How a plate is to be read.
struct PlateReading {
    std::string system;
    double reading_error_mm = 0.5; ///< standard uncertainty of each distance
    bool correct = true;           ///< through the standards of the plate
};

/// What the library expects of a standard.
struct ExpectedRf {
    quantities::Uncertain mean;
    double spread = 0.0; ///< of a new reading on another plate, but for its reading error
};

/// What the library expects of a standard of this name; empty where it holds none.
using ReferenceRf = std::function<std::optional<ExpectedRf>(const std::string &name)>;

/// Turns the sample spots of a plate into features with R_F and its uncertainty. Standards of the
/// plate that the library knows correct the R_F of all samples (see quantities/plate_correction.h).
/// One that lies more than 3 expected spreads from the library needs attention; one that is off by
/// more than 0.1 and a third of its value besides corrects nothing. Throws InputError where
/// standards run in another order than in the library.
[[nodiscard]] FeatureSet plate_features(const std::vector<PlateSpot> &spots,
                                        const PlateReading &reading, const ReferenceRf &reference,
                                        const std::string &file);

} // namespace cospot
