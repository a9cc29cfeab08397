#pragma once

#include "images/picture.h"

#include <string>
#include <string_view>

namespace cospot::images {

/// Decodes a JPEG file: baseline or progressive, grey or colour, 8 bits a channel. One of more than
/// `limits.kept_pixels` is decoded at n/8 of its sides. Throws InputError for any other JPEG (CMYK
/// and YCCK among them), for a damaged or cut file, and, before pixels are decoded, for what
/// `require_picture_size` refuses, more scans than a picture needs, coefficients of more than 256
/// MiB (progressive), and fewer bytes than so many pixels can have.
[[nodiscard]] Picture read_jpeg(std::string_view bytes, const std::string &file,
                                const PictureLimits &limits);

} // namespace cospot::images
