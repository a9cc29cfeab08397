#pragma once

#include "fuzzed.h"
#include "images/picture_file.h"

namespace cospot::fuzz {

/// Reads bytes as a picture file. Few pixels, so that it is quick, and most of them reduced.
inline void read_fuzzed_picture(const std::string &bytes) {
    constexpr images::PictureLimits limits{.most_pixels = 1 << 16, .kept_pixels = 1 << 10};
    (void)accepts_file([&] {
        const images::Picture picture = images::read_picture(bytes, kFile, limits);
        const images::Image &image = picture.image;
        require(images::is_picture(bytes), "what is read as a picture is one");
        require(image.width > 0 && image.height > 0, "a picture has pixels");
        require(image.rgb.size() == 3 * static_cast<std::size_t>(image.width) *
                                        static_cast<std::size_t>(image.height),
                "each pixel has three bytes");
        require(picture.reduced_by >= 1.0, "no picture grows");
        require(static_cast<std::int64_t>(picture.stored_width) * picture.stored_height <=
                    limits.most_pixels,
                "pixels are bounded");
    });
}

} // namespace cospot::fuzz
