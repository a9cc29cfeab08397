#pragma once

#include "plate_photo/found_plate.h"
#include "plate_photo/plate_geometry.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// What was applied to a lane, counted from 1 at the left.
struct NamedLane {
    std::size_t lane = 0;
    std::string name; ///< of the sample, or of the standard's compound
    bool is_standard = false;
};

/// How a photo of a plate is turned into spots.
struct PhotoSettings {
    std::optional<plate_photo::Corners> corners{}; ///< else found
    std::optional<plate_photo::PlateSize> plate{}; ///< else its height counts as 100 mm
    plate_photo::PlateSettings finder{};
    std::vector<NamedLane> names{};
    std::optional<std::string> second{}; ///< file of another photo of the plate
    std::optional<plate_photo::Corners> second_corners{};
    std::string stain{};                      ///< that the plate was treated with
    std::optional<std::size_t> sample_lane{}; ///< where only one lane is asked for
};

} // namespace cospot
