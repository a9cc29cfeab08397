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

/// What a lens does to straight lines. A place at s from the centre, in radii, is seen at
/// s * (1 + radial * s * s): the first radial term of Brown 1971. Below 0 it is a barrel.
struct Lens {
    Place centre;           ///< of the photo
    double radius_px = 1.0; ///< half of the photo's diagonal
    double radial = 0.0;
};

/// The four edges of a plate in a photo; they are straight but for the lens.
struct Outline {
    Corners corners{};
    Lens lens{};
    double uncertainty_px = 0.0; ///< of a corner, standard; 0 where the user gave the corners
};

struct PlateSize {
    double width_mm = 0.0;
    double height_mm = 0.0;
};

/// A plate as seen from straight above, its edges at the edges of the image.
struct FlatPlate {
    images::Image image;
    PlateSize size;
    double pixels_per_mm = 0.0; ///< the same across and along
    bool size_assumed = false;  ///< the height is kAssumedHeightMm, since the user gave no size
};

/// Of a plate whose size is not given.
inline constexpr double kAssumedHeightMm = 100.0;

/// In pixels.
[[nodiscard]] double distance(Place a, Place b);

} // namespace cospot::plate_photo
