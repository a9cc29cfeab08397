#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace cospot::images {

/// Pixels in rows from the upper left, three bytes each: red, green, blue (sRGB).
struct Image {
    int width = 0;
    int height = 0;
    std::vector<std::uint8_t> rgb; ///< 3 * width * height

    /// Index of the red byte of a pixel; the pixel has to be inside.
    [[nodiscard]] std::size_t at(int x, int y) const {
        return 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                    static_cast<std::size_t>(x));
    }
};

/// Both sides at least 1.
[[nodiscard]] Image black_image(int width, int height);

} // namespace cospot::images
