// JPEG files made by hand (t81, from memory), so that neither writing nor reading is judged by
// itself.
#include "images/jpeg_picture.h"

#include "images/jpeg_segments.h"
#include "made_pictures.h"
#include "picture_checks.h"

#include <regex>
#include <vector>

namespace cospot::images {
namespace {

bool has(const std::string &text, const std::string &part) {
    return text.find(part) != std::string::npos;
}

MadeJpeg grey_blocks() {
    return {.blocks_across = 3, .blocks_down = 2, .channels = {{0, 50, 100, 150, 200, 255}}};
}

TEST(JpegPicture, GreyBlocksAreTheirValues) {
    const Picture picture = read_picture(jpeg_file(grey_blocks()), "plate.jpg");
    EXPECT_EQ(picture.kind, PictureKind::jpeg);
    EXPECT_FALSE(picture.turned);
    EXPECT_EQ(picture.reduced_by, 1.0);
    EXPECT_TRUE(picture.notes.empty());
    ASSERT_EQ(picture.image.width, 24);
    ASSERT_EQ(picture.image.height, 16);
    const std::vector<int> values{0, 50, 100, 150, 200, 255};
    for (int y = 0; y < 16; ++y) {
        for (int x = 0; x < 24; ++x) {
            const int value = values[static_cast<std::size_t>(3 * (y / 8) + x / 8)];
            EXPECT_EQ(colour_at(picture.image, x, y), (std::array<int, 3>{value, value, value}));
        }
    }
}

// R = Y + 1.402 (Cr - 128), G = Y - 0.34414 (Cb - 128) - 0.71414 (Cr - 128),
// B = Y + 1.772 (Cb - 128): JFIF 1.02, page 4 (jfif1992, from memory).
TEST(JpegPicture, LumaAndChromaBecomeRgbAsJfifSays) {
    const std::vector<int> luma{60, 120, 150, 200};
    const std::vector<int> blue{100, 128, 160, 128};
    const std::vector<int> red{150, 128, 110, 90};
    const MadeJpeg made{.blocks_across = 4, .channels = {luma, blue, red}};
    const Picture picture = read_picture(jpeg_file(made), "plate.jpg");
    for (std::size_t i = 0; i < luma.size(); ++i) {
        const double cb = blue[i] - 128;
        const double cr = red[i] - 128;
        const auto colour = colour_at(picture.image, static_cast<int>(8 * i + 3), 5);
        EXPECT_NEAR(colour[0], luma[i] + 1.402 * cr, 0.51);
        EXPECT_NEAR(colour[1], luma[i] - 0.34414 * cb - 0.71414 * cr, 1.01);
        EXPECT_NEAR(colour[2], luma[i] + 1.772 * cb, 0.51);
    }
}

TEST(JpegPicture, ProgressiveIsRead) {
    MadeJpeg made = grey_blocks();
    made.frame = 0xC2;
    const Picture picture = read_picture(jpeg_file(made), "plate.jpg");
    EXPECT_EQ(colour_at(picture.image, 20, 2)[0], 100);
    EXPECT_EQ(colour_at(picture.image, 4, 12)[0], 150);
}

TEST(JpegPicture, LargeOneIsReducedWhileItIsRead) {
    PictureLimits limits;
    limits.kept_pixels = 12 * 8; // half a side
    const Picture picture = read_picture(jpeg_file(grey_blocks()), "plate.jpg", limits);
    EXPECT_EQ(picture.reduced_by, 2.0);
    EXPECT_EQ(picture.stored_width, 24);
    EXPECT_EQ(picture.stored_height, 16);
    ASSERT_EQ(picture.image.width, 12);
    ASSERT_EQ(picture.image.height, 8);
    EXPECT_EQ(colour_at(picture.image, 5, 2)[0], 50);
    EXPECT_EQ(colour_at(picture.image, 9, 6)[0], 255);
    limits.kept_pixels = 12 * 8 - 1;
    EXPECT_DOUBLE_EQ(read_picture(jpeg_file(grey_blocks()), "plate.jpg", limits).reduced_by,
                     8.0 / 3.0);
}

TEST(JpegPicture, OtherKindsOfJpegAreNamed) {
    MadeJpeg inks = grey_blocks();
    inks.channels.resize(4, inks.channels[0]);
    EXPECT_EQ(refusal(jpeg_file(inks)), "a JPEG in the four inks of print (CMYK)");
    MadeJpeg two = grey_blocks();
    two.channels.resize(2, two.channels[0]);
    EXPECT_EQ(refusal(jpeg_file(two)), "a JPEG with 2 channels");
    MadeJpeg deep = grey_blocks();
    deep.frame = 0xC1;
    deep.precision = 12;
    EXPECT_EQ(refusal(jpeg_file(deep)), "a JPEG with other than 8 bits a channel");
    MadeJpeg lossless = grey_blocks();
    lossless.frame = 0xC3;
    EXPECT_EQ(refusal(jpeg_file(lossless)), "a lossless or otherwise rare kind of JPEG");
    MadeJpeg arithmetic = grey_blocks();
    arithmetic.frame = 0xC9;
    EXPECT_EQ(refusal(jpeg_file(arithmetic)), "a JPEG with arithmetic coding");
}

TEST(JpegPicture, PixelsAreBoundedBeforeTheyAreDecoded) {
    MadeJpeg made = grey_blocks();
    made.claimed_width = 32768;
    EXPECT_EQ(refusal(jpeg_file(made)), "32768 x 16 pixels");
    made.claimed_width = 20000;
    made.claimed_height = 5001;
    EXPECT_EQ(refusal(jpeg_file(made)), "20000 x 5001 pixels");
    made.claimed_height = 5000;
    const std::string small = jpeg_file(made);
    EXPECT_EQ(refusal(small), std::to_string(small.size()) + " bytes for 20000 x 5000 pixels");
    // Long enough by what lies behind its end, it stops where its data do.
    EXPECT_TRUE(has(refusal(small + std::string(250'000, '\0')), "damage near byte"));
}

TEST(JpegPicture, LargeProgressiveOneIsRefused) {
    MadeJpeg made = grey_blocks();
    made.frame = 0xC2;
    made.channels.resize(3, made.channels[0]);
    made.claimed_width = 9000;
    made.claimed_height = 9000;
    EXPECT_EQ(refusal(jpeg_file(made) + std::string(1'000'000, '\0')),
              "a progressive JPEG of 9000 x 9000 pixels");
}

TEST(JpegPicture, HundredsOfScansAreRefused) {
    MadeJpeg made = grey_blocks();
    made.frame = 0xC2;
    made.further_scans = 500;
    EXPECT_EQ(refusal(jpeg_file(made)), "501 scans in one JPEG");
    made.further_scans = 40;
    EXPECT_EQ(refusal(jpeg_file(made)), "41 scans in one JPEG");
    made.further_scans = 39;
    EXPECT_FALSE(has(refusal(jpeg_file(made)), "scans in one JPEG"));
}

TEST(JpegPicture, ScansAreCountedUpToTheEndOfTheFirstPicture) {
    MadeJpeg made = grey_blocks();
    made.frame = 0xC2;
    made.further_scans = 3;
    const std::string file = jpeg_file(made);
    EXPECT_EQ(jpeg_segments(file).scans, 4U);
    EXPECT_EQ(jpeg_segments(file + file).scans, 4U);
    // A scan inside another segment is none.
    EXPECT_EQ(jpeg_segments(std::string("\xFF\xD8\xFF\xFE\0\x06\xFF\xDA\0\x02\xFF\xD9", 12)).scans,
              0U);
}

TEST(JpegPicture, BytesBetweenSegmentsAreNoted) {
    std::string file = jpeg_file(grey_blocks());
    file.insert(file.size() - 2, "padding");
    const Picture picture = read_picture(file, "plate.jpg");
    ASSERT_EQ(picture.notes.size(), 1U);
    EXPECT_TRUE(has(picture.notes[0], "bytes that belong to no part")) << picture.notes[0];
    EXPECT_EQ(colour_at(picture.image, 20, 12)[0], 255);
}

TEST(JpegPicture, CutFileIsRefusedWithThePlace) {
    const std::string file = jpeg_file(grey_blocks());
    EXPECT_TRUE(std::regex_match(refusal(file.substr(0, 158)),
                                 std::regex("damage near byte 15[5-8] of 158: Premature end of "
                                            "JPEG file")));
}

TEST(JpegPicture, NoDamageDoesHarm) {
    expect_sound_on_damage(jpeg_file(grey_blocks()));
    MadeJpeg made = grey_blocks();
    made.channels.resize(3, made.channels[0]);
    made.exif = exif_with_orientation(8, true);
    made.frame = 0xC2;
    expect_sound_on_damage(jpeg_file(made));
}

} // namespace
} // namespace cospot::images
