#include "plate_photo/spot_finder.h"

#include "flat_plate_scene.h"
#include "plate_photo/plate_lines.h"
#include "shared/error.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>

namespace cospot::plate_photo {
namespace {

constexpr double kLanes[] = {8.0, 19.0, 30.0, 41.0};

/// Lines at 10 and 90 mm, four lanes with spots of R_F 0.2, 0.45 and 0.7; a lane climbs a little.
FlatScene usual_scene() {
    FlatScene scene;
    scene.lines = {{.left_mm = 10.0, .middle_mm = 10.0, .right_mm = 10.0},
                   {.left_mm = 90.0, .middle_mm = 90.0, .right_mm = 90.0}};
    for (const double lane : kLanes) {
        for (const double rf : {0.2, 0.45, 0.7}) {
            scene.spots.push_back({.x_mm = lane, .y_mm = 10.0 + 80.0 * rf + 0.05 * lane});
        }
    }
    return scene;
}

const FoundSpot *nearest(const FoundPlate &plate, double x_mm, double y_mm) {
    const FoundSpot *best = nullptr;
    double distance = 2.0;
    for (const FoundLane &lane : plate.lanes) {
        for (const FoundSpot &spot : lane.spots) {
            if (std::hypot(spot.x_mm - x_mm, spot.y_mm - y_mm) < distance) {
                distance = std::hypot(spot.x_mm - x_mm, spot.y_mm - y_mm);
                best = &spot;
            }
        }
    }
    return best;
}

std::size_t count_of(const FoundPlate &plate) {
    std::size_t count = 0;
    for (const FoundLane &lane : plate.lanes) {
        count += lane.spots.size();
    }
    return count;
}

std::string list_of(const FoundPlate &plate) {
    std::string list;
    for (const FoundLane &lane : plate.lanes) {
        for (const FoundSpot &spot : lane.spots) {
            list += fmt::format("({:.1f}, {:.1f}: {:.3f}) ", spot.x_mm, spot.y_mm, spot.contrast);
        }
    }
    return list;
}

void expect_spots_of(const FlatScene &scene, const FoundPlate &plate) {
    EXPECT_EQ(count_of(plate), scene.spots.size()) << list_of(plate);
    for (const SceneSpot &spot : scene.spots) {
        const FoundSpot *found = nearest(plate, spot.x_mm, spot.y_mm);
        ASSERT_NE(found, nullptr) << spot.x_mm << ", " << spot.y_mm;
        EXPECT_NEAR(found->y_mm, spot.y_mm, 0.3);
        EXPECT_LE(std::abs(found->y_mm - spot.y_mm), 3.0 * found->uncertainty_mm);
    }
}

TEST(SpotFinder, FindsLinesLanesAndSpots) {
    const FlatScene scene = usual_scene();
    const FoundPlate plate = find_spots(drawn(scene), {});
    EXPECT_EQ(plate.light, Light::white);
    ASSERT_TRUE(plate.start && plate.front);
    EXPECT_NEAR(plate.start->middle_mm, 10.0, 0.2);
    EXPECT_NEAR(plate.front->middle_mm, 90.0, 0.2);
    ASSERT_EQ(plate.lanes.size(), 4U);
    for (std::size_t i = 0; i < 4; ++i) {
        EXPECT_NEAR(plate.lanes[i].x_mm, kLanes[i], 0.3);
    }
    expect_spots_of(scene, plate);
}

TEST(SpotFinder, FindsSpotsUnderAShadowAndUnevenLight) {
    FlatScene scene = usual_scene();
    scene.lamp = [](double x, double y) { return (y > 20.0 + x ? 1.0 : 0.65) * (1.0 - 0.003 * x); };
    expect_spots_of(scene, find_spots(drawn(scene), {}));
}

// Hess 2007 (J. Chem. Educ., from memory): at 254 nm the layer glows green, and spots are dark.
TEST(SpotFinder, FindsDarkSpotsOnALayerThatGlowsGreen) {
    FlatScene scene = usual_scene();
    scene.layer = {0.03, 0.35, 0.05};
    const FoundPlate plate = find_spots(drawn(scene), {});
    EXPECT_EQ(plate.light, Light::uv254);
    expect_spots_of(scene, plate);
}

TEST(SpotFinder, FindsSpotsThatGlowOnADarkLayer) {
    FlatScene scene = usual_scene();
    scene.layer = {0.012, 0.008, 0.05};
    for (SceneSpot &spot : scene.spots) {
        spot.density = {-0.3, -0.9, -0.6};
    }
    const FoundPlate plate = find_spots(drawn(scene), {});
    EXPECT_EQ(plate.light, Light::uv366);
    expect_spots_of(scene, plate);
}

TEST(SpotFinder, FindsSpotsOfAnyColour) {
    FlatScene scene = usual_scene();
    for (std::size_t i = 0; i < scene.spots.size(); ++i) {
        scene.spots[i].density = {i % 3 == 0 ? 0.1 : 0.0, i % 3 == 1 ? 0.1 : 0.0,
                                  i % 3 == 2 ? 0.1 : 0.0};
    }
    expect_spots_of(scene, find_spots(drawn(scene), {}));
}

TEST(SpotFinder, TellsOverlappedSpotsOfDifferentColoursApart) {
    FlatScene scene = usual_scene();
    scene.spots.push_back({.x_mm = 19.0, .y_mm = 82.0, .density = {0.2, 0.0, 0.0}});
    scene.spots.push_back({.x_mm = 19.0, .y_mm = 83.8, .density = {0.0, 0.0, 0.2}});
    const FoundPlate plate = find_spots(drawn(scene), {});
    ASSERT_NE(nearest(plate, 19.0, 82.0), nullptr);
    ASSERT_NE(nearest(plate, 19.0, 83.8), nullptr);
    EXPECT_NE(nearest(plate, 19.0, 82.0), nearest(plate, 19.0, 83.8));
    EXPECT_TRUE(nearest(plate, 19.0, 82.0)->overlapping);
}

TEST(SpotFinder, TakesNeitherDirtNorScratchesNorFingersForSpots) {
    FlatScene scene = usual_scene();
    const std::size_t spots = scene.spots.size();
    scene.discs = {{.x_mm = 8.2, .y_mm = 70.0, .radius_mm = 0.4},
                   {.x_mm = 30.0, .y_mm = 60.0, .radius_mm = 0.3},
                   {.x_mm = 0.0, .y_mm = 50.0, .radius_mm = 4.0}};
    for (double y = 55.0; y < 75.0; y += 0.1) {
        scene.discs.push_back({.x_mm = 38.0 + 0.3 * (y - 55.0), .y_mm = y, .radius_mm = 0.2});
    }
    const FoundPlate plate = find_spots(drawn(scene), {});
    EXPECT_EQ(plate.lanes.size(), 4U);
    EXPECT_EQ(count_of(plate), spots) << list_of(plate);
}

TEST(SpotFinder, SaysThatASpotTails) {
    FlatScene scene = usual_scene();
    scene.spots.push_back({.x_mm = 30.0, .y_mm = 82.0, .tail_mm = 5.0, .density = {0.2, 0.2, 0.2}});
    const FoundPlate plate = find_spots(drawn(scene), {});
    const FoundSpot *tailing = nearest(plate, 30.0, 82.0);
    ASSERT_NE(tailing, nullptr);
    EXPECT_TRUE(tailing->tailing);
    EXPECT_GT(tailing->uncertainty_mm, nearest(plate, 41.0, 68.0)->uncertainty_mm);
    EXPECT_FALSE(nearest(plate, 41.0, 68.05)->tailing);
}

TEST(SpotFinder, FindsSpotsAtStartAndFront) {
    FlatScene scene = usual_scene();
    scene.spots.push_back({.x_mm = 8.0, .y_mm = 10.2, .density = {0.3, 0.3, 0.3}});
    scene.spots.push_back({.x_mm = 41.0, .y_mm = 89.5, .density = {0.3, 0.3, 0.3}});
    const FoundPlate plate = find_spots(drawn(scene), {});
    EXPECT_NE(nearest(plate, 8.0, 10.2), nullptr);
    EXPECT_NE(nearest(plate, 41.0, 89.5), nullptr);
}

TEST(SpotFinder, FindsNothingOnAnEmptyPlate) {
    FlatScene scene;
    const FoundPlate plate = find_spots(drawn(scene), {});
    EXPECT_TRUE(plate.lanes.empty());
    EXPECT_FALSE(plate.start);
    EXPECT_FALSE(plate.front);
    std::string notes;
    for (const std::string &note : plate.notes) {
        notes += note;
    }
    EXPECT_NE(notes.find("--start-mm"), std::string::npos) << notes;
    EXPECT_NE(notes.find("--front-mm"), std::string::npos) << notes;
}

TEST(SpotFinder, ObeysTheUser) {
    PlateSettings settings;
    settings.light = Light::uv254;
    settings.start_mm = 11.0;
    settings.front_mm = 88.0;
    settings.lanes_mm = {30.0, 8.0};
    settings.spots = {{.lane = 2, .y_mm = {50.0, 30.0}}};
    const FoundPlate plate = find_spots(drawn(usual_scene()), settings);
    EXPECT_EQ(plate.light, Light::uv254);
    EXPECT_DOUBLE_EQ(plate.start->middle_mm, 11.0);
    EXPECT_TRUE(plate.start->given && plate.front->given);
    ASSERT_EQ(plate.lanes.size(), 2U);
    EXPECT_DOUBLE_EQ(plate.lanes[1].x_mm, 30.0);
    ASSERT_EQ(plate.lanes[1].spots.size(), 2U);
    EXPECT_DOUBLE_EQ(plate.lanes[1].spots[0].y_mm, 30.0);
    EXPECT_TRUE(plate.lanes[1].spots[0].given);
    EXPECT_EQ(plate.lanes[0].spots.size(), 3U);
}

TEST(SpotFinder, NotesAFrontThatIsCrooked) {
    FlatScene scene = usual_scene();
    scene.lines[1] = {.left_mm = 87.5, .middle_mm = 90.0, .right_mm = 87.5};
    const FoundPlate plate = find_spots(drawn(scene), {});
    ASSERT_TRUE(plate.front);
    EXPECT_NEAR(plate.front->left_mm, 87.5, 0.4);
    EXPECT_TRUE(nearest(plate, 41.0, 68.05)->crooked_front);
    EXPECT_FALSE(nearest(plate, 30.0, 67.5)->crooked_front);
}

TEST(SpotFinder, RefusesPlacesThatAreNotOnThePlate) {
    const FlatPlate plate = drawn(FlatScene{});
    const auto option_of = [&](const PlateSettings &settings) {
        try {
            (void)find_spots(plate, settings);
        } catch (const InputError &fault) {
            return fault.where().file;
        }
        return std::string("none");
    };
    PlateSettings settings;
    settings.start_mm = 101.0;
    EXPECT_EQ(option_of(settings), "command line, --start-mm");
    settings.start_mm = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(option_of(settings), "command line, --start-mm");
    settings.start_mm = 60.0;
    settings.front_mm = 50.0;
    EXPECT_EQ(option_of(settings), "command line, --front-mm");
    settings = {};
    settings.lanes_mm = {51.0};
    EXPECT_EQ(option_of(settings), "command line, --lanes");
    settings.lanes_mm = {25.0};
    settings.spots = {{.lane = 2, .y_mm = {40.0}}};
    EXPECT_EQ(option_of(settings), "command line, --spots");
}

} // namespace
} // namespace cospot::plate_photo
