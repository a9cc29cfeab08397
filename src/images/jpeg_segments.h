#pragma once

#include <cstddef>
#include <string_view>

namespace cospot::images {

/// What the markers of a JPEG file say before anything is decoded.
struct JpegSegments {
    std::string_view exif{}; ///< the first EXIF data, from the header of TIFF on; else empty
    std::size_t scans = 0;
};

/// Goes from marker to marker as a decoder does (ITU-T T.81, annex B, from memory), up to the end
/// of the first picture or of the bytes; EXIF data as in EXIF 2.3, section 4.7.2 (from memory).
[[nodiscard]] JpegSegments jpeg_segments(std::string_view bytes);

} // namespace cospot::images
