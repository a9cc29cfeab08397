#pragma once

#include "images/picture.h"

#include <string>
#include <string_view>

namespace cospot::images {

/// Decodes a PNG file of any colour type and depth: 16 bits rounded to 8, palettes and grey turned
/// into RGB, what is transparent laid over white. One of more than `limits.kept_pixels` is reduced
/// while its rows come. Of the other chunks only eXIf is read (up to 1 MiB); texts and
/// profiles are not decompressed. Throws InputError for a damaged or cut file and, before pixels
/// are decoded, for what `require_picture_size` refuses, an interlaced picture of more than
/// `limits.kept_pixels`, and fewer bytes than so many pixels can have.
[[nodiscard]] Picture read_png(std::string_view bytes, const std::string &file,
                               const PictureLimits &limits);

} // namespace cospot::images
