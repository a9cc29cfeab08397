#pragma once

#include "plate_photo/found_plate.h"
#include "plate_photo/plate_geometry.h"

#include <string>
#include <vector>

namespace cospot::plate_photo {

/// What the user should look at, as sentences: lines that were not seen or are crooked, lanes that
/// are uneven or missing, spots that are cut off.
[[nodiscard]] std::vector<std::string> plate_notes(const FoundPlate &plate, PlateSize size,
                                                   bool light_was_given);

/// Whether the front at `x_mm` lies off its middle by more than a hundredth of the run.
[[nodiscard]] bool is_crooked_at(const FoundPlate &plate, double x_mm, PlateSize size);

} // namespace cospot::plate_photo
