#pragma once

#include "plate_photo/plate_geometry.h"

#include <array>

namespace cospot::plate_photo {

/// The projective map of one plane onto another (Hartley and Zisserman 2004, section 2.3): rows of
/// a 3 x 3 matrix on homogeneous coordinates, the last element 1.
struct Homography {
    std::array<double, 9> rows{1, 0, 0, 0, 1, 0, 0, 0, 1};
};

/// Takes each corner of `from` to the same one of `to`, by eight linear equations. No three corners
/// of either may lie on a line: std::invalid_argument.
[[nodiscard]] Homography homography(const Corners &from, const Corners &to);

[[nodiscard]] Place mapped(const Homography &map, Place place);

} // namespace cospot::plate_photo
