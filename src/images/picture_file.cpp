#include "images/picture_file.h"

#include "images/jpeg_picture.h"
#include "images/png_picture.h"

#include <fmt/format.h>

namespace cospot::images {

Picture read_picture(std::string_view bytes, const std::string &file, const PictureLimits &limits) {
    if (bytes.empty()) {
        throw InputError(in_picture(file), "an empty file", "a JPEG or PNG file");
    }
    if (bytes.size() > kMostPictureBytes) {
        throw InputError(in_picture(file), fmt::format("a file of {} bytes", bytes.size()),
                         fmt::format("at most {} bytes (64 MiB)", kMostPictureBytes));
    }
    const std::optional<PictureKind> kind = picture_kind(bytes);
    if (kind == PictureKind::jpeg) {
        return read_jpeg(bytes, file, limits);
    }
    if (kind == PictureKind::png) {
        return read_png(bytes, file, limits);
    }
    throw unread_picture(kind, file);
}

} // namespace cospot::images
