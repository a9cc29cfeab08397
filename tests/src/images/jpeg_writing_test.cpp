#include "images/jpeg_writing.h"

#include "picture_checks.h"

#include <cmath>
#include <cstdlib>
#include <set>
#include <stdexcept>

namespace cospot::images {
namespace {

/// A layer that darkens smoothly, with a small red spot.
Image invented_plate() {
    Image image = black_image(41, 30);
    for (int y = 0; y < image.height; ++y) {
        for (int x = 0; x < image.width; ++x) {
            const double spot = std::exp(-(std::pow(x - 20.0, 2) + std::pow(y - 15.0, 2)) / 8.0);
            std::uint8_t *rgb = &image.rgb[image.at(x, y)];
            rgb[0] = static_cast<std::uint8_t>(220 - 2 * y);
            rgb[1] = static_cast<std::uint8_t>(215 - 2 * y - 100 * spot);
            rgb[2] = static_cast<std::uint8_t>(200 - x - 100 * spot);
        }
    }
    return image;
}

TEST(JpegWriting, ImageComesBackNearlyAsItWas) {
    const Image image = invented_plate();
    const Picture back = read_picture(jpeg_of(image, 95), "plate.jpg");
    ASSERT_EQ(back.image.width, image.width);
    ASSERT_EQ(back.image.height, image.height);
    for (std::size_t i = 0; i < image.rgb.size(); ++i) {
        EXPECT_NEAR(back.image.rgb[i], image.rgb[i], 6);
    }
}

TEST(JpegWriting, LowerQualityIsShorter) {
    const Image image = invented_plate();
    EXPECT_LT(jpeg_of(image, 30).size(), jpeg_of(image, 90).size());
}

TEST(JpegWriting, FileHoldsNoMetadata) {
    const std::string file = jpeg_of(invented_plate(), 80);
    std::set<int> markers;
    std::size_t at = 2;
    while (at + 4 <= file.size() && markers.count(0xDA) == 0) { // segment by segment to the scan
        ASSERT_EQ(static_cast<unsigned char>(file[at]), 0xFF);
        markers.insert(static_cast<unsigned char>(file[at + 1]));
        at += 2 + (static_cast<std::size_t>(static_cast<unsigned char>(file[at + 2])) << 8U) +
              static_cast<unsigned char>(file[at + 3]);
    }
    // JFIF's header, tables, frame and scan: no EXIF data (E1), no comment (FE).
    EXPECT_EQ(markers, (std::set<int>{0xE0, 0xDB, 0xC0, 0xC4, 0xDA}));
}

TEST(JpegWriting, RefusesWhatIsNoImage) {
    EXPECT_THROW((void)jpeg_of(Image{}, 80), std::logic_error);
    EXPECT_THROW((void)jpeg_of(black_image(1, 1), 0), std::logic_error);
    EXPECT_THROW((void)jpeg_of(black_image(1, 1), 101), std::logic_error);
    EXPECT_THROW((void)jpeg_of(black_image(65501, 1), 80), std::logic_error);
}

} // namespace
} // namespace cospot::images
