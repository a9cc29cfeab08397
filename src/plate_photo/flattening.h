#pragma once

#include "images/image.h"
#include "plate_photo/plate_geometry.h"

#include <optional>

namespace cospot::plate_photo {

/// The plate as seen from straight above, at the scale of the edge that the photo shows finest,
/// but with at most 2.5 million pixels; where it shrinks, areas are averaged.
/// Without a size the shape is taken from the perspective (rectangle_shape.h) and the height is
/// taken as kAssumedHeightMm. Throws InputError, as of the option --corners, for corners outside
/// the photo, in another order than Corners has, not convex, or with an edge shorter than 20
/// pixels.
[[nodiscard]] FlatPlate flatten(const images::Image &photo, const Outline &outline,
                                std::optional<PlateSize> size);
/// Through a lens that does not distort.
[[nodiscard]] FlatPlate flatten(const images::Image &photo, const Corners &corners,
                                std::optional<PlateSize> size);

/// Where the photo shows a place on the plate, mm from its left and lower edges.
[[nodiscard]] Place on_photo(const Outline &outline, PlateSize size, double x_mm, double y_mm);

} // namespace cospot::plate_photo
