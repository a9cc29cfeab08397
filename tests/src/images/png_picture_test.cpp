// PNG files made by hand, in all colour types and depths.
#include "images/png_picture.h"

#include "made_pictures.h"
#include "picture_checks.h"

#include <vector>

namespace cospot::images {
namespace {

using Colour = std::array<int, 3>;

std::string bytes_of(const std::vector<int> &values) {
    std::string bytes;
    for (const int value : values) {
        bytes += static_cast<char>(value);
    }
    return bytes;
}

std::vector<Colour> row_of(const MadePng &made) {
    const Picture picture = read_picture(png_file(made), "plate.png");
    EXPECT_EQ(picture.kind, PictureKind::png);
    std::vector<Colour> colours;
    for (int x = 0; x < picture.image.width; ++x) {
        colours.push_back(colour_at(picture.image, x, 0));
    }
    return colours;
}

Colour grey(int value) {
    return {value, value, value};
}

// A file of one transparent pixel that is printed in many places, and the check value of IEND, the
// same in every file: W3C PNG (png2003, from memory).
TEST(PngPicture, ReadsFixedBytes) {
    const std::string file = "\x89PNG\r\n\x1A\n" +
                             bytes_of({0,    0, 0, 13,  'I', 'H', 'D', 'R',  0,    0,    0,    1,
                                       0,    0, 0, 1,   8,   6,   0,   0,    0,    0x1F, 0x15, 0xC4,
                                       0x89, 0, 0, 0,   10,  'I', 'D', 'A',  'T',  0x78, 0x9C, 0x63,
                                       0,    1, 0, 0,   5,   0,   1,   0x0D, 0x0A, 0x2D, 0xB4, 0,
                                       0,    0, 0, 'I', 'E', 'N', 'D', 0xAE, 0x42, 0x60, 0x82});
    EXPECT_EQ(colour_at(read_picture(file, "plate.png").image, 0, 0), grey(255));
    EXPECT_EQ(png_chunk("IEND", ""), file.substr(file.size() - 12));
}

TEST(PngPicture, GreyOfEveryDepth) {
    const auto row = [](std::uint8_t depth, std::uint32_t width, const std::vector<int> &bytes) {
        return row_of({.width = width, .depth = depth, .colour_type = 0, .rows = bytes_of(bytes)});
    };
    EXPECT_EQ(row(1, 3, {0, 0b10100000}), (std::vector{grey(255), grey(0), grey(255)}));
    EXPECT_EQ(row(2, 4, {0, 0b00011011}), (std::vector{grey(0), grey(85), grey(170), grey(255)}));
    EXPECT_EQ(row(4, 2, {0, 0x1F}), (std::vector{grey(17), grey(255)}));
    EXPECT_EQ(row(8, 2, {0, 3, 200}), (std::vector{grey(3), grey(200)}));
    // 0x7F80 / 0xFFFF = 127.5 / 255.99; 0xFFFF is white.
    EXPECT_EQ(row(16, 3, {0, 0x01, 0x01, 0x40, 0x40, 0xFF, 0xFF}),
              (std::vector{grey(1), grey(64), grey(255)}));
}

TEST(PngPicture, RgbAndPalette) {
    EXPECT_EQ(row_of({.width = 2, .rows = bytes_of({0, 1, 2, 3, 250, 251, 252})}),
              (std::vector{Colour{1, 2, 3}, Colour{250, 251, 252}}));
    EXPECT_EQ(row_of({.depth = 16, .rows = bytes_of({0, 1, 1, 2, 2, 255, 255})}),
              (std::vector{Colour{1, 2, 255}}));
    const std::string palette = png_chunk("PLTE", bytes_of({10, 20, 30, 40, 50, 60}));
    EXPECT_EQ(row_of({.width = 2,
                      .depth = 1,
                      .colour_type = 3,
                      .rows = bytes_of({0, 0b01000000}),
                      .chunks = palette}),
              (std::vector{Colour{10, 20, 30}, Colour{40, 50, 60}}));
}

// Over white: a c + (1 - a) 255.
TEST(PngPicture, TransparencyIsLaidOverWhite) {
    EXPECT_EQ(row_of({.width = 3,
                      .colour_type = 6,
                      .rows = bytes_of({0, 100, 0, 200, 255, 100, 0, 200, 0, 100, 0, 200, 51})}),
              (std::vector{Colour{100, 0, 200}, grey(255), Colour{224, 204, 244}}));
    EXPECT_EQ(row_of({.width = 2, .colour_type = 4, .rows = bytes_of({0, 100, 255, 100, 51})}),
              (std::vector{grey(100), grey(224)}));
    EXPECT_EQ(row_of({.depth = 16, .colour_type = 4, .rows = bytes_of({0, 100, 100, 51, 51})}),
              (std::vector{grey(224)}));
    EXPECT_EQ(row_of({.width = 2,
                      .colour_type = 0,
                      .rows = bytes_of({0, 7, 8}),
                      .chunks = png_chunk("tRNS", bytes_of({0, 7}))}),
              (std::vector{grey(255), grey(8)}));
    EXPECT_EQ(row_of({.width = 2,
                      .colour_type = 3,
                      .rows = bytes_of({0, 0, 1}),
                      .chunks = png_chunk("PLTE", bytes_of({100, 0, 200, 4, 5, 6})) +
                                png_chunk("tRNS", bytes_of({51}))}),
              (std::vector{Colour{224, 204, 244}, Colour{4, 5, 6}}));
}

/// 8 x 8 grey pixels, each its place, in the seven passes of W3C PNG, section 8.2 (png2003, from
/// memory).
MadePng interlaced() {
    struct Pass {
        int x, y, step_x, step_y;
    };
    MadePng made{.width = 8, .height = 8, .colour_type = 0, .interlace = 1};
    for (const Pass &pass : std::vector<Pass>{{0, 0, 8, 8},
                                              {4, 0, 8, 8},
                                              {0, 4, 4, 8},
                                              {2, 0, 4, 4},
                                              {0, 2, 2, 4},
                                              {1, 0, 2, 2},
                                              {0, 1, 1, 2}}) {
        for (int y = pass.y; y < 8; y += pass.step_y) {
            made.rows += '\0';
            for (int x = pass.x; x < 8; x += pass.step_x) {
                made.rows += static_cast<char>(8 * y + x);
            }
        }
    }
    return made;
}

TEST(PngPicture, InterlacedOneIsPutTogether) {
    const Picture picture = read_picture(png_file(interlaced()), "plate.png");
    for (int y = 0; y < 8; ++y) {
        for (int x = 0; x < 8; ++x) {
            EXPECT_EQ(colour_at(picture.image, x, y), grey(8 * y + x));
        }
    }
    PictureLimits limits;
    limits.kept_pixels = 63;
    EXPECT_EQ(refusal(png_file(interlaced()), limits), "an interlaced PNG of 8 x 8 pixels");
}

TEST(PngPicture, LargeOneIsReducedWhileItIsRead) {
    MadePng made{.width = 4, .height = 4, .colour_type = 4};
    made.rows =
        bytes_of({0, 10, 255, 20, 255, 90, 0,   90, 0,   0, 30, 255, 40, 255, 90, 0,   90, 0,
                  0, 0,  255, 0,  255, 80, 255, 80, 255, 0, 0,  255, 1,  255, 80, 255, 81, 255});
    PictureLimits limits;
    limits.kept_pixels = 4;
    const Picture picture = read_picture(png_file(made), "plate.png", limits);
    EXPECT_EQ(picture.reduced_by, 2.0);
    EXPECT_EQ(picture.stored_width, 4);
    ASSERT_EQ(picture.image.width, 2);
    ASSERT_EQ(picture.image.height, 2);
    EXPECT_EQ(colour_at(picture.image, 0, 0), grey(25));
    EXPECT_EQ(colour_at(picture.image, 1, 0), grey(255));
    EXPECT_EQ(colour_at(picture.image, 0, 1), grey(0));
    EXPECT_EQ(colour_at(picture.image, 1, 1), grey(80));
}

TEST(PngPicture, PixelsAreBoundedBeforeTheyAreDecoded) {
    EXPECT_EQ(refusal(png_file({.width = 30000, .height = 30000})), "30000 x 30000 pixels");
    EXPECT_EQ(refusal(png_file({.width = 32768, .height = 1})), "32768 x 1 pixels");
    EXPECT_EQ(refusal(png_file({.width = 2'147'483'647, .height = 2'147'483'647})),
              "2147483647 x 2147483647 pixels");
    const std::string few = png_file({.width = 10000, .height = 10000});
    EXPECT_EQ(refusal(few), std::to_string(few.size()) + " bytes for 10000 x 10000 pixels");
    // Enough bytes, but not of pixels.
    MadePng padded{
        .width = 3000, .height = 3000, .behind = png_chunk("tEXt", std::string(40'000, 'a'))};
    padded.rows = std::string(100, '\0');
    EXPECT_EQ(refusal(png_file(padded)).substr(0, 16), "damage near byte");
}

TEST(PngPicture, OtherChunksAreNotUnpacked) {
    const std::string bomb = deflated(std::string(5'000'000, 'a'));
    MadePng made{.colour_type = 0, .rows = bytes_of({0, 77})};
    made.chunks = png_chunk("iCCP", std::string("profile\0\0", 9) + bomb) +
                  png_chunk("zTXt", std::string("Comment\0\0", 9) + bomb) +
                  png_chunk("iTXt", std::string("Comment\0\1\0\0\0", 12) + bomb);
    EXPECT_EQ(row_of(made), std::vector{grey(77)});
    made.chunks = png_chunk("eXIf", exif_with_orientation(6, true) + std::string(2'000'000, 'a'));
    EXPECT_FALSE(read_picture(png_file(made), "plate.png").turned); // not taken into memory
    for (const std::string type : {"eXIf", "zTXt"}) {
        made.chunks = "\x7F\xFF\xFF\xFF" + type;
        EXPECT_EQ(refusal(png_file(made)).substr(0, 16), "damage near byte");
    }
}

TEST(PngPicture, NoDamageDoesHarm) {
    MadePng made{.width = 5, .height = 2, .colour_type = 3};
    made.chunks = png_chunk("PLTE", bytes_of({100, 0, 200, 4, 5, 6})) +
                  png_chunk("tRNS", bytes_of({51})) +
                  png_chunk("eXIf", exif_with_orientation(6, true));
    made.rows = bytes_of({0, 0, 1, 0, 1, 0, 0, 1, 0, 1, 0, 1});
    expect_sound_on_damage(png_file(made));
    expect_sound_on_damage(png_file(interlaced()));
}

} // namespace
} // namespace cospot::images
