#include "images/resizing.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace cospot::images {
namespace {

Image grey_image(int width, const std::vector<int> &values) {
    Image image = black_image(width, static_cast<int>(values.size()) / width);
    for (std::size_t i = 0; i < image.rgb.size(); ++i) {
        image.rgb[i] = static_cast<std::uint8_t>(values[i / 3]);
    }
    return image;
}

std::vector<int> reds(const Image &image) {
    std::vector<int> values;
    for (std::size_t i = 0; i < image.rgb.size(); i += 3) {
        values.push_back(image.rgb[i]);
    }
    return values;
}

TEST(Resizing, WholeFactorTakesTheMean) {
    const Image image = reduced(grey_image(4, {0, 10, 100, 100, 20, 30, 100, 201}), 2);
    EXPECT_EQ(image.width, 2);
    EXPECT_EQ(image.height, 1);
    EXPECT_EQ(reds(image), (std::vector{15, 125})); // 15; 125.25
}

// By hand: of 3 x 3 pixels the middle ones count half, the one in the centre a quarter, for each of
// the four: (0 + 5 + 15 + 10) / 2.25 and so on.
TEST(Resizing, SharedPixelsCountByTheirShare) {
    const Image image = reduced(grey_image(3, {0, 10, 20, 30, 40, 50, 60, 70, 80}), 2);
    EXPECT_EQ(reds(image), (std::vector{13, 27, 53, 67})); // 13.3, 26.7, 53.3, 66.7
}

TEST(Resizing, ShapeIsKeptAndNothingGrows) {
    const Image wide = reduced(black_image(1000, 3), 100);
    EXPECT_EQ(wide.width, 100);
    EXPECT_EQ(wide.height, 1);
    const Image tall = reduced(black_image(3, 4), 3);
    EXPECT_EQ(tall.width, 2);
    EXPECT_EQ(tall.height, 3);
    const Image same = reduced(grey_image(2, {1, 2, 3, 4}), 2);
    EXPECT_EQ(reds(same), (std::vector{1, 2, 3, 4}));
}

TEST(Resizing, EveryShareAddsUp) {
    // White stays white and the mean of a ramp stays, whatever the ratio.
    for (const int side : {1, 2, 7, 31, 64, 99}) {
        for (const int value : reds(reduced(grey_image(100, std::vector<int>(7000, 255)), side))) {
            ASSERT_EQ(value, 255);
        }
        std::vector<int> ramp;
        for (int i = 0; i < 7000; ++i) {
            ramp.push_back(i % 100 * 2);
        }
        const std::vector<int> values = reds(reduced(grey_image(100, ramp), side));
        double sum = 0.0;
        for (const int value : values) {
            sum += value;
        }
        EXPECT_NEAR(sum / static_cast<double>(values.size()), 99.0, 0.5) << side;
    }
}

TEST(Resizing, LongestSidesDoNotOverflow) {
    const Image image =
        reduced(Image{32767, 400, std::vector<std::uint8_t>(3UL * 32767 * 400, 255)}, 1);
    EXPECT_EQ(reds(image), std::vector{255});
}

} // namespace
} // namespace cospot::images
