#pragma once

#include "images/picture.h"

#include <string>
#include <string_view>

namespace cospot::images {

/// Reads a picture file, JPEG or PNG as its content says, whatever its name. `file` is its name for
/// messages. Throws InputError for every other kind, named and with what to do, for a file of more
/// than `kMostPictureBytes`, and as `read_jpeg` and `read_png` do.
[[nodiscard]] Picture read_picture(std::string_view bytes, const std::string &file,
                                   const PictureLimits &limits = {});

} // namespace cospot::images
