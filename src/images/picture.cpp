#include "images/picture.h"

#include <fmt/format.h>

namespace cospot::images {

Where in_picture(const std::string &file) {
    return {file, 0, "picture"};
}

void require_picture_size(std::int64_t width, std::int64_t height, const PictureLimits &limits,
                          const std::string &file) {
    if (width < 1 || height < 1 || width > kMostPictureSide || height > kMostPictureSide ||
        width * height > limits.most_pixels) {
        throw InputError(in_picture(file), fmt::format("{} x {} pixels", width, height),
                         fmt::format("at least 1 and at most {} a side, and at most {} megapixels: "
                                     "take or export a smaller picture",
                                     kMostPictureSide,
                                     static_cast<double>(limits.most_pixels) / 1e6));
    }
}

} // namespace cospot::images
