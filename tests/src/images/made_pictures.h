#pragma once

#include "images/image.h"

#include <cstdint>
#include <string>
#include <vector>

// Picture files made byte by byte, without the libraries that the reader uses: JPEG as in ITU-T
// T.81, annexes B and F, PNG as in W3C PNG (Third Edition), sections 5, 7 and 8, EXIF data as in
// TIFF 6.0, section 2, all from memory.
namespace cospot::images {

/// A JPEG file of blocks of 8 x 8 pixels, each of one value in all its pixels.
struct MadeJpeg {
    int blocks_across = 1;
    int blocks_down = 1;
    /// For each channel (1 grey; 3 luma and chroma; 4 inks) the value of each block, row by row.
    std::vector<std::vector<int>> channels{};
    std::string exif{};         ///< from the header of TIFF on; none where empty
    std::uint8_t frame = 0xC0;  ///< marker of the frame: C0 baseline, C2 progressive
    std::uint8_t precision = 8; ///< that the frame claims, bits
    int claimed_width = 0;      ///< pixels, where the frame should lie; else 0
    int claimed_height = 0;
    std::size_t further_scans = 0; ///< of nothing, behind the first
};

[[nodiscard]] std::string jpeg_file(const MadeJpeg &made);

/// EXIF data with the tag Orientation behind another tag, in either byte order.
[[nodiscard]] std::string exif_with_orientation(int value, bool little_endian);

/// "LENGTH TYPE CONTENT CRC".
[[nodiscard]] std::string png_chunk(const std::string &type, const std::string &content);

struct MadePng {
    std::uint32_t width = 1;
    std::uint32_t height = 1;
    std::uint8_t depth = 8;
    std::uint8_t colour_type = 2; ///< 0 grey, 2 RGB, 3 palette, 4 grey and alpha, 6 RGBA
    std::uint8_t interlace = 0;
    std::string rows{};   ///< unpacked: each with its filter byte before it
    std::string chunks{}; ///< between header and pixels
    std::string behind{}; ///< between pixels and end
};

[[nodiscard]] std::string png_file(const MadePng &made);

/// As zlib packs it.
[[nodiscard]] std::string deflated(const std::string &bytes);

} // namespace cospot::images
