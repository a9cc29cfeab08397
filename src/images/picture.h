#pragma once

#include "images/image.h"
#include "images/picture_kind.h"
#include "shared/error.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace cospot::images {

/// What was read out of a picture file.
struct Picture {
    Image image; ///< upright: already turned as the file says
    PictureKind kind = PictureKind::jpeg;
    int stored_width = 0; ///< pixels in the file, before it was turned or reduced
    int stored_height = 0;
    bool turned = false;            ///< turned or mirrored, as the file's EXIF data say
    double reduced_by = 1.0;        ///< stored pixels along a side for each pixel of the image
    std::vector<std::string> notes; ///< sentences for the user
};

/// Bounds that hold for a picture before any of its pixels is decoded.
struct PictureLimits {
    std::int64_t most_pixels = 100'000'000; ///< what has more is refused
    std::int64_t kept_pixels = 16'000'000;  ///< what has more is reduced while it is read
};

inline constexpr std::size_t kMostPictureBytes = 64U << 20U;
inline constexpr std::int64_t kMostPictureSide = 32767;

/// The file, and that the fault is in its picture as a whole.
[[nodiscard]] Where in_picture(const std::string &file);

/// Throws InputError for a side of 0 or above `kMostPictureSide`, and above `limits.most_pixels`.
void require_picture_size(std::int64_t width, std::int64_t height, const PictureLimits &limits,
                          const std::string &file);

} // namespace cospot::images
