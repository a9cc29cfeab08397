#include "plate_photo/layer_light.h"

#include "flat_plate_scene.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace cospot::plate_photo {
namespace {

/// The largest change of green where nothing is, 2 mm off the edges of the plate.
double largest_change(const LayerLight &layer) {
    const Field smooth = smoothed(layer.change[1], 1);
    const int margin = smooth.column_at(2.0);
    double largest = 0.0;
    for (int y = margin; y < smooth.height - margin; ++y) {
        for (int x = margin; x < smooth.width - margin; ++x) {
            largest = std::max<double>(largest, std::abs(smooth.at(x, y)));
        }
    }
    return largest;
}

// IEC 61966-2-1 (from memory): the line below 0.04045 and the power above it; 188 is nearly half
// of the light.
TEST(LayerLight, ReadsSrgbAsLight) {
    EXPECT_DOUBLE_EQ(linear_light(0), 0.0);
    EXPECT_DOUBLE_EQ(linear_light(255), 1.0);
    EXPECT_NEAR(linear_light(10), 10.0 / 255.0 / 12.92, 1e-12);
    EXPECT_NEAR(linear_light(188), 0.5, 0.005);
}

TEST(LayerLight, LeavesNothingOfUnevenLight) {
    FlatScene scene;
    scene.noise = 0.0;
    scene.lamp = [](double x, double y) {
        return 1.0 - 0.006 * x - 0.00004 * (y - 30.0) * (y - 30.0);
    };
    EXPECT_LT(largest_change(layer_light(drawn(scene))), 0.015);
}

TEST(LayerLight, FollowsTheHardEdgeOfAShadow) {
    FlatScene scene;
    scene.noise = 0.005;
    scene.lamp = [](double x, double y) { return y > 60.0 - 0.7 * x ? 1.0 : 0.6; };
    EXPECT_LT(largest_change(layer_light(drawn(scene))), 0.03);
}

TEST(LayerLight, FollowsABeamThatIsNarrowerThanTheSquares) {
    FlatScene scene;
    scene.noise = 0.005;
    scene.lamp = [](double x, double) { return x > 20.0 && x < 30.0 ? 1.0 : 0.6; };
    EXPECT_LT(largest_change(layer_light(drawn(scene))), 0.03);
}

// Beer and Lambert: half a unit of absorbance lets 10^-0.5 of the light through.
TEST(LayerLight, KeepsASpotAsDeepAsItIs) {
    FlatScene scene;
    scene.spots = {{.x_mm = 25.0,
                    .y_mm = 50.0,
                    .along_mm = 2.0,
                    .across_mm = 2.0,
                    .density = {0.5, 0.5, 0.5}}};
    const LayerLight layer = layer_light(drawn(scene));
    EXPECT_NEAR(value_at(layer.change[1], 25.0, 50.0), std::pow(10.0, -0.5) - 1.0, 0.02);
}

} // namespace
} // namespace cospot::plate_photo
