#pragma once

#include "images/image.h"

#include <array>
#include <cstddef>
#include <vector>

namespace cospot::plate_photo {

/// Red, green and blue of a photo as planes of 0 to 255, means of squares of `factor` pixels.
/// Kept as fractions: white on white differs by less than a step of a byte.
struct ReducedPhoto {
    int width = 0;
    int height = 0;
    int factor = 1;
    std::array<std::vector<float>, 3> planes; ///< rows from above

    [[nodiscard]] std::size_t at(int x, int y) const {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
               static_cast<std::size_t>(x);
    }
};

/// Both sides at most `longest`; what the squares do not fill at the right and below is left out.
[[nodiscard]] ReducedPhoto reduced_photo(const images::Image &photo, int longest);

/// Rows become columns.
[[nodiscard]] ReducedPhoto transposed(const ReducedPhoto &photo);

/// Of each of the values of a plane the mean of the square of 2 * reach + 1 about it, smaller at
/// the border.
[[nodiscard]] std::vector<float> smoothed(const std::vector<float> &plane, int width, int height,
                                          int reach);
[[nodiscard]] ReducedPhoto smoothed(ReducedPhoto photo, int reach); ///< the same of each plane

} // namespace cospot::plate_photo
