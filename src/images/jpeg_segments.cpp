#include "images/jpeg_segments.h"

#include <algorithm>

namespace cospot::images {

JpegSegments jpeg_segments(std::string_view bytes) {
    constexpr unsigned stuffed = 0x00;
    constexpr unsigned temporary = 0x01;
    constexpr unsigned restart_0 = 0xD0;
    constexpr unsigned start_of_image = 0xD8;
    constexpr unsigned end_of_image = 0xD9;
    constexpr unsigned start_of_scan = 0xDA;
    constexpr unsigned application_1 = 0xE1;
    constexpr std::string_view exif_name{"Exif\0\0", 6};
    const auto byte = [bytes](std::size_t at) {
        return static_cast<unsigned>(static_cast<unsigned char>(bytes[at]));
    };

    JpegSegments segments;
    std::size_t at = 0;
    while (true) {
        at = bytes.find_first_not_of('\xFF', bytes.find('\xFF', at));
        if (at == std::string_view::npos) {
            return segments;
        }
        const unsigned marker = byte(at++);
        if (marker == stuffed || marker == temporary ||
            (marker >= restart_0 && marker <= start_of_image)) {
            continue; // these have no content
        }
        if (marker == end_of_image || at + 2 > bytes.size()) {
            return segments;
        }
        const std::size_t length = std::max((byte(at) << 8U) | byte(at + 1), 2U);
        const std::string_view content = bytes.substr(at, length).substr(2);
        if (marker == start_of_scan) {
            ++segments.scans;
        }
        if (marker == application_1 && segments.exif.empty() && content.starts_with(exif_name)) {
            segments.exif = content.substr(exif_name.size());
        }
        at = std::min(at + length, bytes.size());
    }
}

} // namespace cospot::images
