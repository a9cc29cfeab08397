#pragma once

#include "images/image.h"

#include <array>

namespace cospot::plate_photo {

/// A place in a photo, in pixels from its upper left corner: x to the right, y down. The centre of
/// the first pixel is at (0.5, 0.5).
struct Place {
    double x = 0.0;
    double y = 0.0;
};

/// The plate's upper left, upper right, lower right and lower left corner; the lower edge is the
/// one next to the start line.
using Corners = std::array<Place, 4>;

struct PlateSize {
    double width_mm = 0.0;
    double height_mm = 0.0;
};

/// A plate as seen from straight above, its edges at the edges of the image.
struct FlatPlate {
    images::Image image;
    PlateSize size;
    double pixels_per_mm = 0.0; ///< the same across and along
};

/// In pixels.
[[nodiscard]] double distance(Place a, Place b);

} // namespace cospot::plate_photo
