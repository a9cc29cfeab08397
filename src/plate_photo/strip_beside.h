#pragma once

#include "plate_photo/plate_geometry.h"
#include "plate_photo/reduced_photo.h"

namespace cospot::plate_photo {

/// Whether a strip of something else lies between one of the edges and the layer, all along it: the
/// gap beside a ruler, the ruler itself, paper or a shadow. Then the edge is not the plate's. At a
/// border parallel to an edge the light changes by the same at most places along it; spots, fingers
/// and slanting shadows change it at some. The change has to be some share of that at the edge:
/// where an eluent went, or a rim is worn, it is less.
[[nodiscard]] bool has_strip_beside(const ReducedPhoto &photo, const Corners &corners);

} // namespace cospot::plate_photo
