#pragma once

#include "plate_photo/found_plate.h"
#include "plate_photo/plate_geometry.h"

namespace cospot::plate_photo {

/// Throws InputError where the user's places are not on the plate or contradict each other. Its
/// place is the option that has the fault.
void require_on_plate(const PlateSettings &settings, PlateSize size);

} // namespace cospot::plate_photo
