#pragma once

#include "images/image.h"

#include <string_view>

namespace cospot::images {

/// How the stored rows and columns lie in the scene: the values of the tag Orientation (0x0112) of
/// TIFF 6.0 and EXIF 2.3 (both from memory), named by where the first stored row and column are.
enum class Orientation {
    top_left = 1, ///< stored upright
    top_right,    ///< mirrored left to right
    bottom_right, ///< turned by 180 degrees
    bottom_left,  ///< mirrored top to bottom
    left_top,     ///< mirrored at the diagonal from the upper left
    right_top,    ///< to be turned by 90 degrees clockwise
    right_bottom, ///< mirrored at the diagonal from the upper right
    left_bottom,  ///< to be turned by 90 degrees anticlockwise
};

/// The orientation in EXIF data, which begin with the header of TIFF ("II" or "MM"); top_left where
/// there is none, or where the data are damaged.
[[nodiscard]] Orientation exif_orientation(std::string_view exif);

/// The image upright, given how it is stored. Takes as much memory again for the time being.
[[nodiscard]] Image upright(Image stored, Orientation orientation);

} // namespace cospot::images
