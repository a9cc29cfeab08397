#include "plate_photo/plate_lines.h"

#include "flat_plate_scene.h"

#include <gtest/gtest.h>

namespace cospot::plate_photo {
namespace {

PlateLines lines_of(const FlatScene &scene) {
    return seen_lines(layer_light(drawn(scene)));
}

FlatScene with_spots() {
    FlatScene scene;
    for (int lane = 0; lane < 5; ++lane) {
        scene.spots.push_back({.x_mm = 7.0 + 9.0 * lane, .y_mm = 10.0});
        scene.spots.push_back({.x_mm = 7.0 + 9.0 * lane, .y_mm = 45.0});
    }
    return scene;
}

TEST(PlateLines, SeesPencilLinesThatSlantAndBend) {
    FlatScene scene = with_spots();
    scene.lines = {{.left_mm = 9.7, .middle_mm = 10.0, .right_mm = 10.3},
                   {.left_mm = 88.0, .middle_mm = 89.5, .right_mm = 88.6}};
    const PlateLines lines = lines_of(scene);
    ASSERT_TRUE(lines.start && lines.front);
    EXPECT_NEAR(lines.start->middle_mm, 10.0, 0.15);
    EXPECT_NEAR(lines.start->right_mm, 10.3, 0.3);
    EXPECT_NEAR(lines.front->left_mm, 88.0, 0.3);
    EXPECT_NEAR(lines.front->middle_mm, 89.5, 0.15);
    EXPECT_NEAR(lines.front->right_mm, 88.6, 0.3);
    EXPECT_TRUE(lines.front->drawn);
}

TEST(PlateLines, SeesTheEdgeBetweenWetAndDry) {
    FlatScene scene = with_spots();
    scene.lamp = [](double, double y) { return y > 82.0 ? 1.0 : 0.9; };
    const PlateLines lines = lines_of(scene);
    ASSERT_TRUE(lines.front);
    EXPECT_NEAR(lines.front->middle_mm, 82.0, 0.5);
    EXPECT_FALSE(lines.front->drawn);
}

TEST(PlateLines, InventsNoneOnAPlateWithSpotsAlone) {
    for (std::uint32_t seed = 1; seed <= 5; ++seed) {
        FlatScene scene = with_spots();
        scene.seed = seed;
        const PlateLines lines = lines_of(scene);
        EXPECT_FALSE(lines.start) << seed;
        EXPECT_FALSE(lines.front) << seed;
    }
}

TEST(PlateLines, TakesNoShortMarkForALine) {
    FlatScene scene = with_spots();
    for (double x = 20.0; x < 30.0; x += 0.3) {
        scene.discs.push_back({.x_mm = x, .y_mm = 15.0, .radius_mm = 0.25, .density = 0.2});
    }
    EXPECT_FALSE(lines_of(scene).start);
}

TEST(PlateLines, GoesThroughThreeHeights) {
    const PlateLine line{.left_mm = 80.0, .middle_mm = 82.0, .right_mm = 81.0};
    EXPECT_DOUBLE_EQ(height_at(line, 0.0, 50.0), 80.0);
    EXPECT_DOUBLE_EQ(height_at(line, 25.0, 50.0), 82.0);
    EXPECT_DOUBLE_EQ(height_at(line, 50.0, 50.0), 81.0);
}

} // namespace
} // namespace cospot::plate_photo
