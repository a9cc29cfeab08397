#pragma once

#include "plate_photo/plate_geometry.h"

namespace cospot::plate_photo {

/// Without distortion, centred on a photo of these sides in pixels.
[[nodiscard]] Lens lens_of(int width, int height);

/// Where the lens shows a place of the picture that a pinhole camera would have taken.
[[nodiscard]] Place seen(const Lens &lens, Place straight);

/// The other way round, by Newton's method; for |radial| up to 0.1 exact within the photo.
[[nodiscard]] Place straightened(const Lens &lens, Place seen);
[[nodiscard]] Corners straightened_corners(const Lens &lens, const Corners &seen);

} // namespace cospot::plate_photo
