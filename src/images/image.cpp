#include "images/image.h"

namespace cospot::images {

Image black_image(int width, int height) {
    Image image{width, height, {}};
    image.rgb.resize(3 * static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    return image;
}

} // namespace cospot::images
