#pragma once

#include "images/image.h"

#include <string>

namespace cospot::images {

/// The image as a baseline JPEG file with full colour resolution, so that small spots keep their
/// colour. `quality` from 1 to 100. The file holds no metadata: no EXIF data, no place, no time.
/// Throws std::logic_error for another quality and for an image with a side of 0 or above 65500.
[[nodiscard]] std::string jpeg_of(const Image &image, int quality);

} // namespace cospot::images
