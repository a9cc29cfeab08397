#pragma once

#include "plate_photo/found_plate.h"
#include "plate_photo/plate_geometry.h"

namespace cospot::plate_photo {

/// Finds the start, the front, the lanes and their spots on a straightened plate; what the user
/// gives is taken as given. Throws InputError (its place is the option: --start-mm, --front-mm,
/// --lanes, --spots) for places that are not on the plate or contradict each other, and for a
/// plate of fewer than two pixels a millimetre.
[[nodiscard]] FoundPlate find_spots(const FlatPlate &plate, const PlateSettings &settings);

} // namespace cospot::plate_photo
