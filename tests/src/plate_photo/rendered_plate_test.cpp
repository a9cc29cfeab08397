// The drawn photos against what optics, statistics and standards say of such pictures.

#include "rendered_plate.h"
#include "rendering/camera.h"
#include "rendering/sensor.h"
#include "rendering/spot_shape.h"
#include "rendering/things.h"
#include "rendering/visibility.h"

#include "plate_photo/flattening.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace cospot::rendering {
namespace {

using plate_photo::FlatPlate;
using plate_photo::Light;
using plate_photo::Place;
using plate_photo::PlateSize;

RenderedPlate easy_plate(std::uint64_t seed) {
    return rendered({seed, Difficulty::easy, 0.4, Light::white});
}

Place crossing(Place a, Place b, Place c, Place d) {
    const double down = (b.x - a.x) * (d.y - c.y) - (b.y - a.y) * (d.x - c.x);
    const double t = ((c.x - a.x) * (d.y - c.y) - (c.y - a.y) * (d.x - c.x)) / down;
    return {a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)};
}

TEST(RenderedPlate, IsTheSameFromTheSameRecipeAndAnotherFromAnotherSeed) {
    const RenderedPlate one = easy_plate(1);
    EXPECT_EQ(one.image.rgb, easy_plate(1).image.rgb);
    EXPECT_NE(one.image.rgb, easy_plate(2).image.rgb);
}

TEST(RenderedPlate, LiesWhollyInThePhoto) {
    for (std::uint64_t seed = 0; seed < 60; ++seed) {
        const Camera camera({50.0, 100.0}, Difficulty::hard, 1.0, Draws(seed, 1));
        for (const Point &corner :
             {Point{0, 0, 0}, Point{50, 0, 0}, Point{0, 100, 0}, Point{50, 100, 0}}) {
            const Place seen = camera.project(corner);
            EXPECT_GT(seen.x, 0.0) << seed;
            EXPECT_LT(seen.x, camera.width()) << seed;
            EXPECT_GT(seen.y, 0.0) << seed;
            EXPECT_LT(seen.y, camera.height()) << seed;
        }
    }
}

// The diagonals of a rectangle cross in its middle, and straight lines stay straight in perspective
// (projective geometry, common textbook knowledge); the lens of an easy photo bends by 0.3 % at
// most.
TEST(RenderedPlate, ShowsTheMiddleWhereItsDiagonalsCross) {
    for (std::uint64_t seed = 0; seed < 20; ++seed) {
        const Camera camera({50.0, 100.0}, Difficulty::easy, 1.0, Draws(seed, 1));
        const Place middle = camera.project({25.0, 50.0, 0.0});
        const Place crossed = crossing(camera.project({0, 0, 0}), camera.project({50, 100, 0}),
                                       camera.project({50, 0, 0}), camera.project({0, 100, 0}));
        EXPECT_LT(plate_photo::distance(middle, crossed), 1.5) << seed;
    }
}

TEST(RenderedPlate, RaysGoThroughWhatIsProjected) {
    const Camera camera({50.0, 100.0}, Difficulty::hard, 1.0, Draws(4, 1));
    for (const Point &point : {Point{0, 0, 0}, Point{50, 100, 0}, Point{20, 70, -1.5}}) {
        const Point ray = camera.ray(camera.project(point));
        const double t = (point[2] - camera.position()[2]) / ray[2];
        EXPECT_NEAR(camera.position()[0] + t * ray[0], point[0], 1e-3);
        EXPECT_NEAR(camera.position()[1] + t * ray[1], point[1], 1e-3);
    }
}

// Mean of a Gaussian convolved with an exponential: that of the Gaussian plus the time constant
// (Foley and Dorsey 1984, J. Chromatogr. Sci. 22, 40); here the tail goes down.
TEST(SpotShape, OfASmearedTailHasTheMeanOfItsFormula) {
    SpotShape shape;
    shape.y_mm = 50.0;
    shape.along_mm = 1.0;
    shape.tail = Tail::smeared;
    shape.tail_mm = 2.5;
    settle(shape);
    EXPECT_NEAR(amount(shape, 0.0, 50.0), 1.0, 1e-6);
    EXPECT_LT(amount(shape, 0.0, 50.2), 1.0);
    EXPECT_LT(amount(shape, 0.0, 49.8), 1.0);
    EXPECT_NEAR(centre_mm(shape), 50.0 - shape.peak_offset - 2.5, 0.05);
}

// Full width at half height of a Gaussian: 2.3548 standard deviations (handbook value).
TEST(SpotShape, OfAGaussianIsAsWideAsItsFormula) {
    SpotShape shape;
    shape.along_mm = 2.0;
    const Extent half = extent(shape, 0.5);
    EXPECT_NEAR(half.high_mm - half.low_mm, 2.3548 * 2.0, 0.03);
}

double mean_red(const images::Image &image) {
    double sum = 0.0;
    for (std::size_t k = 0; k < image.rgb.size(); k += 3) {
        sum += image.rgb[k];
    }
    return 3.0 * sum / static_cast<double>(image.rgb.size());
}

// IEC 61966-2-1: a fifth of the light (0.2140) is coded as half of the scale.
TEST(Sensor, CodesLightAsTheStandardSays) {
    Raster grey(64, 48);
    std::fill(grey.pixels.begin(), grey.pixels.end(), Colour{0.214F, 0.214F, 0.214F});
    Exposure exposure;
    exposure.full_electrons = 1e9;
    exposure.read_electrons = 0.0;
    exposure.quality = 95;
    Draws draws(1, 1);
    EXPECT_NEAR(mean_red(exposed(grey, exposure, draws)), 127.5, 1.0);
}

// Electrons come one by one (Poisson): a quarter of them has twice the relative noise.
TEST(Sensor, HasTheNoiseOfItsElectrons) {
    const auto spread = [](double electrons) {
        Raster grey(96, 96);
        std::fill(grey.pixels.begin(), grey.pixels.end(), Colour{0.2F, 0.2F, 0.2F});
        Exposure exposure;
        exposure.full_electrons = electrons;
        exposure.read_electrons = 0.0;
        exposure.quality = 100;
        Draws draws(1, 1);
        const images::Image image = exposed(grey, exposure, draws);
        const double mean = mean_red(image);
        double sum = 0.0;
        for (std::size_t k = 0; k < image.rgb.size(); k += 3) {
            sum += std::pow(image.rgb[k] - mean, 2);
        }
        return std::sqrt(3.0 * sum / static_cast<double>(image.rgb.size()));
    };
    EXPECT_NEAR(spread(500.0) / spread(2000.0), 2.0, 0.15);
}

// By hand: a grey spot of 10 % and 1 mm standard deviation takes pi mm2 in squares; at 5 pixels a
// mm and 1000 electrons that is 100 electrons in each of 78.5 pixels with a noise of 31.6 each.
TEST(Visibility, IsThatOfAMatchedFilter) {
    TrueSpot spot;
    spot.contrast = 0.1;
    spot.absorbs = {1.0, 1.0, 1.0};
    Exposure exposure;
    exposure.full_electrons = 2000.0;
    exposure.read_electrons = 0.0;
    const Colour layer{0.5F, 0.5F, 0.5F};
    EXPECT_NEAR(visibility(spot, layer, 0.5, 5.0, exposure), 100.0 / 31.6 * 8.86, 0.5);
}

TEST(RenderedPlate, StatesEachSpotWhereItsRetentionFactorPutsIt) {
    for (std::uint64_t seed = 0; seed < 40; ++seed) {
        const Chromatogram plate = developed(Light::white, Difficulty::hard, Draws(seed, 1));
        for (const TrueSpot &spot : plate.spots) {
            const double start = height_mm(plate.start.line, spot.shape.x_mm, plate.size.width_mm);
            const double front = height_mm(plate.front.line, spot.shape.x_mm, plate.size.width_mm);
            EXPECT_NEAR((spot.shape.y_mm - start) / (front - start), spot.rf, 1e-9);
            EXPECT_LT(spot.low_mm, spot.shape.y_mm);
            EXPECT_GT(spot.high_mm, spot.shape.y_mm);
            EXPECT_LT(front, plate.size.height_mm);
        }
    }
}

// Seen through the corners, a strong spot that stands alone is darkest where the truth has it.
TEST(RenderedPlate, IsDarkestWhereItsTruthSays) {
    int looked_at = 0;
    for (std::uint64_t seed = 0; seed < 10; ++seed) {
        const RenderedPlate plate = easy_plate(seed);
        const FlatPlate flat = plate_photo::flatten(plate.image, plate.corners, plate.truth.size);
        for (const TrueSpot &spot : plate.truth.spots) {
            if (spot.contrast < 0.25 || spot.contrast > 0.9 || spot.overlapping ||
                spot.kind != SpotClass::plain || spot.absorbs[0] < 0.0) {
                continue;
            }
            const auto strongest = static_cast<std::size_t>(
                std::max_element(spot.absorbs.begin(), spot.absorbs.end()) - spot.absorbs.begin());
            double weight = 0.0;
            double mean_y = 0.0;
            const double reach = 1.5 * spot.shape.along_mm;
            const auto light_at = [&](double y_mm) {
                const int x = static_cast<int>(spot.shape.x_mm * flat.pixels_per_mm);
                const int y =
                    static_cast<int>((plate.truth.size.height_mm - y_mm) * flat.pixels_per_mm);
                return static_cast<double>(flat.image.rgb[flat.image.at(x, y) + strongest]);
            };
            const double outside =
                std::min(light_at(spot.shape.y_mm + reach), light_at(spot.shape.y_mm - reach));
            for (double v = -reach; v <= reach; v += 0.1) {
                const double dark = std::max(0.0, outside - light_at(spot.shape.y_mm + v));
                weight += dark;
                mean_y += dark * v;
            }
            EXPECT_GT(weight, 0.0) << seed;
            EXPECT_NEAR(mean_y / weight, 0.0, 0.35) << seed;
            ++looked_at;
        }
    }
    EXPECT_GE(looked_at, 10);
}

TEST(Things, CoverNoSpot) {
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
        const Chromatogram plate = developed(Light::white, Difficulty::hard, Draws(seed, 1));
        const Things things(plate, Difficulty::hard, Draws(seed, 2));
        for (const TrueSpot &spot : plate.spots) {
            const Colour below{0.5F, 5.0F, 0.05F}; // like nothing that is drawn
            const Colour seen = things.over(below, spot.shape.x_mm, spot.shape.y_mm, 0.1);
            EXPECT_NEAR(seen.r / seen.g, 0.1, 1e-5) << seed; // at most in a shadow
        }
    }
}

} // namespace
} // namespace cospot::rendering
