// Orientation: the tag in both byte orders, and the eight ways in which a picture may be stored.
#include "images/exif_orientation.h"

#include "made_pictures.h"
#include "picture_checks.h"

#include <string>
#include <vector>

namespace cospot::images {
namespace {

/// Rows of letters as an image of one pixel a letter.
Image image_of(const std::vector<std::string> &rows) {
    Image image = black_image(static_cast<int>(rows[0].size()), static_cast<int>(rows.size()));
    for (int y = 0; y < image.height; ++y) {
        for (int x = 0; x < image.width; ++x) {
            image.rgb[image.at(x, y)] = static_cast<std::uint8_t>(
                rows[static_cast<std::size_t>(y)][static_cast<std::size_t>(x)]);
        }
    }
    return image;
}

std::vector<std::string> letters_of(const Image &image) {
    std::vector<std::string> rows;
    for (int y = 0; y < image.height; ++y) {
        std::string row;
        for (int x = 0; x < image.width; ++x) {
            row += static_cast<char>(image.rgb[image.at(x, y)]);
        }
        rows.push_back(row);
    }
    return rows;
}

const std::vector<std::string> kScene{"AB", "CD", "EF"};

/// The scene as each value of the tag stores it: TIFF 6.0, tag Orientation (tiff60, from memory),
/// "the 0th row represents the visual ... of the image, and the 0th column the visual ...".
const std::vector<std::vector<std::string>> kStored{
    {"AB", "CD", "EF"}, // 1: top, left
    {"BA", "DC", "FE"}, // 2: top, right
    {"FE", "DC", "BA"}, // 3: bottom, right
    {"EF", "CD", "AB"}, // 4: bottom, left
    {"ACE", "BDF"},     // 5: left, top
    {"BDF", "ACE"},     // 6: right, top
    {"FDB", "ECA"},     // 7: right, bottom
    {"ECA", "FDB"},     // 8: left, bottom
};

TEST(ExifOrientation, AllEightWaysComeUpright) {
    for (int value = 1; value <= 8; ++value) {
        const Image stored = image_of(kStored[static_cast<std::size_t>(value - 1)]);
        EXPECT_EQ(letters_of(upright(stored, static_cast<Orientation>(value))), kScene) << value;
    }
}

TEST(ExifOrientation, IsReadInBothByteOrders) {
    for (int value = 1; value <= 8; ++value) {
        for (const bool little_endian : {true, false}) {
            EXPECT_EQ(exif_orientation(exif_with_orientation(value, little_endian)),
                      static_cast<Orientation>(value));
        }
    }
}

// Bytes written out by hand after TIFF 6.0, section 2 (tiff60, from memory).
TEST(ExifOrientation, IsReadFromBytesOfTheSpecification) {
    const char big[] = "MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x06\0\0\0\0\0\0";
    EXPECT_EQ(exif_orientation({big, sizeof big - 1}), Orientation::right_top);
    const char little[] = "II*\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0\x06\0\0\0\0\0\0\0";
    EXPECT_EQ(exif_orientation({little, sizeof little - 1}), Orientation::right_top);
}

TEST(ExifOrientation, DamagedDataLeaveThePictureAsItIs) {
    const std::string sound = exif_with_orientation(6, true);
    for (const std::string &exif :
         std::vector<std::string>{"", "II", "XX" + sound.substr(2), exif_with_orientation(0, true),
                                  exif_with_orientation(9, false),
                                  sound.substr(0, 4) + "\xFF\xFF\xFF\xFF", sound.substr(0, 20)}) {
        EXPECT_EQ(exif_orientation(exif), Orientation::top_left);
    }
    for (std::size_t size = 0; size < sound.size(); ++size) {
        (void)exif_orientation(std::string(sound, 0, size)); // within its bytes, says the sanitizer
    }
}

TEST(ExifOrientation, TurnsJpegAndPng) {
    MadeJpeg jpeg{
        .blocks_across = 3, .blocks_down = 2, .channels = {{'B', 'D', 'F', 'A', 'C', 'E'}}};
    jpeg.exif = exif_with_orientation(6, false);
    const Picture from_jpeg = read_picture(jpeg_file(jpeg), "plate.jpg");
    EXPECT_TRUE(from_jpeg.turned);
    EXPECT_EQ(from_jpeg.stored_width, 24);
    EXPECT_EQ(from_jpeg.stored_height, 16);
    ASSERT_EQ(from_jpeg.image.width, 16);
    ASSERT_EQ(from_jpeg.image.height, 24);
    EXPECT_EQ(colour_at(from_jpeg.image, 0, 0)[0], 'A');
    EXPECT_EQ(colour_at(from_jpeg.image, 15, 0)[0], 'B');
    EXPECT_EQ(colour_at(from_jpeg.image, 15, 23)[0], 'F');

    MadePng png{.width = 3, .height = 2, .colour_type = 0, .rows = std::string("\0BDF\0ACE", 8)};
    const std::string exif = png_chunk("eXIf", exif_with_orientation(6, true));
    png.chunks = exif;
    const Picture before_pixels = read_picture(png_file(png), "plate.png");
    EXPECT_TRUE(before_pixels.turned);
    EXPECT_EQ(letters_of(before_pixels.image), kScene);
    png.chunks.clear();
    png.behind = exif;
    EXPECT_EQ(letters_of(read_picture(png_file(png), "plate.png").image), kScene);
}

} // namespace
} // namespace cospot::images
