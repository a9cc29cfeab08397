#include "plate_photo/corner_finder.h"

#include "plate_scene.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace cospot::plate_photo {
namespace {

/// The worst corner, of the height of the plate in the photo; 1 where none were found.
double worst_corner(const PlatePhoto &photo) {
    const auto found = find_corners(photo.image);
    const Corners &truth = photo.outline.corners;
    double most = found ? 0.0 : 1.0;
    for (std::size_t i = 0; found && i < 4; ++i) {
        most = std::max(most, distance(found->corners[i], truth[i]) / distance(truth[0], truth[3]));
    }
    return most;
}

PlateScene tilted_scene(PlateScene::Ground ground, PlateScene::Layer layer) {
    PlateScene scene;
    scene.width = 600;
    scene.height = 450;
    scene.ground = ground;
    scene.layer = layer;
    scene.tilt = 12.0;
    scene.yaw = -8.0;
    scene.turn = 5.0;
    return scene;
}

TEST(CornerFinderTest, FindsPlatesOnBenchesWoodAndClothToAPixelOrTwo) {
    using Ground = PlateScene::Ground;
    using Layer = PlateScene::Layer;
    EXPECT_LT(worst_corner(photo_of(tilted_scene(Ground::dark_bench, Layer::white))), 0.005);
    EXPECT_LT(worst_corner(photo_of(tilted_scene(Ground::wood, Layer::brown))), 0.005);
    EXPECT_LT(worst_corner(photo_of(tilted_scene(Ground::cloth, Layer::green_glow))), 0.005);
}

TEST(CornerFinderTest, FindsAWhitePlateOnWhitePaperByItsThinShadow) {
    const PlateScene scene =
        tilted_scene(PlateScene::Ground::white_paper, PlateScene::Layer::white);
    EXPECT_LT(worst_corner(photo_of(scene)), 0.01);
}

TEST(CornerFinderTest, NeverTakesThePaperUnderThePlateForIt) {
    for (const PlateScene::Layer layer : {PlateScene::Layer::white, PlateScene::Layer::yellow}) {
        const PlatePhoto photo = photo_of(tilted_scene(PlateScene::Ground::paper_on_bench, layer));
        if (find_corners(photo.image)) { // else they are asked for
            EXPECT_LT(worst_corner(photo), 0.015) << static_cast<int>(layer);
        }
    }
}

TEST(CornerFinderTest, FindsWhereEdgesMeetAtABrokenCornerAndUnderAFinger) {
    PlateScene scene = tilted_scene(PlateScene::Ground::dark_bench, PlateScene::Layer::white);
    scene.chipped = true;
    scene.finger = true;
    EXPECT_LT(worst_corner(photo_of(scene)), 0.01);
}

TEST(CornerFinderTest, NeverTakesARulerForPartOfThePlate) {
    using Ground = PlateScene::Ground;
    int found = 0;
    for (const Ground ground : {Ground::dark_bench, Ground::wood, Ground::glove}) {
        for (const PlateScene::Layer layer : {PlateScene::Layer::white, PlateScene::Layer::brown}) {
            PlateScene scene = tilted_scene(ground, layer);
            scene.ruler = true;
            const PlatePhoto photo = photo_of(scene);
            if (find_corners(photo.image)) {
                ++found;
                EXPECT_LT(worst_corner(photo), 0.015) << static_cast<int>(ground);
            }
        }
    }
    EXPECT_GE(found, 3); // the others are asked for
}

TEST(CornerFinderTest, GivesNoCornersWhereThereIsNoPlate) {
    for (const PlateScene::Ground ground :
         {PlateScene::Ground::dark_bench, PlateScene::Ground::white_paper, PlateScene::Ground::wood,
          PlateScene::Ground::cloth, PlateScene::Ground::tiles}) {
        const PlateScene scene = tilted_scene(ground, PlateScene::Layer::white);
        EXPECT_FALSE(find_corners(photo_without_plate(scene))) << static_cast<int>(ground);
    }
}

TEST(CornerFinderTest, GivesNoCornersOfAnEvenPhotoNorOfATinyOne) {
    EXPECT_FALSE(find_corners(images::black_image(640, 480)));
    EXPECT_FALSE(find_corners(images::black_image(60, 40)));
}

TEST(CornerFinderTest, StatesAnUncertaintyOfHalfAPixelAtLeast) {
    const auto found = find_corners(
        photo_of(tilted_scene(PlateScene::Ground::dark_bench, PlateScene::Layer::white)).image);
    ASSERT_TRUE(found);
    EXPECT_GE(found->uncertainty_px, 0.5);
    EXPECT_LT(found->uncertainty_px, 3.0);
}

} // namespace
} // namespace cospot::plate_photo
