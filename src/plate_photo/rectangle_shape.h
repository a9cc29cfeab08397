#pragma once

#include "plate_photo/plate_geometry.h"

namespace cospot::plate_photo {

/// Width over height of the rectangle whose corners these are in a pinhole photo with its principal
/// point at `centre` (Zhang and He 2007, Whiteboard scanning and image enhancement, Digital Signal
/// Processing 17, 414). The focal length comes from the two vanishing points where an error of a
/// pixel or so in the corners leaves it certain to a tenth; else it is that of common cameras.
/// `radius_px` is half of the photo's diagonal, `uncertainty_px` that of a corner.
[[nodiscard]] double width_over_height(const Corners &corners, Place centre, double radius_px,
                                       double uncertainty_px);

} // namespace cospot::plate_photo
