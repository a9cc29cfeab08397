#include "rendered_plate.h"

#include "rendering/bench.h"
#include "rendering/camera.h"
#include "rendering/layer.h"
#include "rendering/lighting.h"
#include "rendering/rim.h"
#include "rendering/sensor.h"
#include "rendering/things.h"
#include "rendering/visibility.h"

#include <cmath>

namespace cospot::rendering {
namespace {

using plate_photo::Light;
using plate_photo::Place;

/// Streams of draws, one a part of the picture.
enum Stream : std::uint64_t {
    kLight,
    kPlate,
    kCamera,
    kLayer,
    kBench,
    kLighting,
    kThings,
    kRim,
    kSensor
};

double pixels_per_mm_in_middle(const Camera &camera, const plate_photo::PlateSize &size) {
    const Point middle{0.5 * size.width_mm, 0.5 * size.height_mm, 0.0};
    const Place here = camera.project(middle);
    const Place right = camera.project({middle[0] + 1.0, middle[1], 0.0});
    const Place up = camera.project({middle[0], middle[1] + 1.0, 0.0});
    return 0.5 * (plate_photo::distance(here, right) + plate_photo::distance(here, up));
}

/// Everything in front of the camera.
struct Scene {
    const Camera &camera;
    Rim rim;
    Layer layer;
    Bench bench;
    Things things;
    Lighting lighting;
    double pixel_mm;
};

/// Where a ray from the camera meets the plane at this height.
std::array<double, 2> met(const Camera &camera, const Point &ray, double z) {
    const Point &from = camera.position();
    const double t = (z - from[2]) / ray[2];
    return {from[0] + t * ray[0], from[1] + t * ray[1]};
}

Colour seen_at(const Scene &scene, Place place) {
    const Point ray = scene.camera.ray(place);
    const auto [x, y] = met(scene.camera, ray, 0.0);
    const auto [low_x, low_y] = met(scene.camera, ray, -scene.rim.thickness_mm());
    const double half = 0.5 * scene.pixel_mm;
    const double depth = scene.rim.inside(x, y);
    Colour colour;
    if (depth < half) {
        colour = scene.bench.at(low_x, low_y) * scene.rim.shade(low_x, low_y);
        const double under = scene.rim.inside(low_x, low_y);
        colour = mixed(colour, scene.rim.side(), smooth_step(-half, half, under));
    }
    if (depth > -half) {
        const double layer_depth = scene.rim.inside_layer(x, y);
        const Colour face =
            mixed(scene.rim.support(), scene.layer.at(x, y), smooth_step(-half, half, layer_depth));
        colour = mixed(colour, face, smooth_step(-half, half, depth));
    }
    colour = scene.things.over(colour, x, y, scene.pixel_mm);
    return colour * scene.lighting.at(x, y, scene.camera.radius(place));
}

void judge_visibility(const Scene &scene, const Exposure &exposure, Chromatogram &truth) {
    for (TrueSpot &spot : truth.spots) {
        const double x = spot.shape.x_mm;
        const double y = spot.shape.y_mm;
        const double radius = scene.camera.radius(scene.camera.project({x, y, 0.0}));
        const Colour lamp = scene.lighting.at(x, y, radius);
        spot.visibility = visibility(spot, scene.layer.clean() * lamp,
                                     scene.layer.brightest_channel() * static_cast<double>(lamp.g),
                                     1.0 / scene.pixel_mm, exposure);
    }
}

Light drawn_light(Draws draws) {
    return draws.one_of({Light::white, Light::white, Light::uv254, Light::uv366});
}

} // namespace

RenderedPlate rendered(const PlateRecipe &recipe) {
    const auto draws = [&](Stream stream) { return Draws(recipe.seed, stream); };
    RenderedPlate plate;
    const Light light = recipe.light ? *recipe.light : drawn_light(draws(kLight));
    plate.truth = developed(light, recipe.difficulty, draws(kPlate));
    const plate_photo::PlateSize size = plate.truth.size;
    const Camera camera(size, recipe.difficulty, recipe.megapixels, draws(kCamera));
    plate.tilt_degrees = camera.tilt_degrees();
    plate.pixels_per_mm = pixels_per_mm_in_middle(camera, size);
    plate.corners = {camera.project({0.0, size.height_mm, 0.0}),
                     camera.project({size.width_mm, size.height_mm, 0.0}),
                     camera.project({size.width_mm, 0.0, 0.0}), camera.project({0.0, 0.0, 0.0})};

    const Scene scene{
        camera,
        Rim(plate.truth, recipe.difficulty, draws(kRim)),
        Layer(plate.truth, recipe.difficulty, 1.25 * plate.pixels_per_mm, draws(kLayer)),
        Bench(plate.truth, draws(kBench)),
        Things(plate.truth, recipe.difficulty, draws(kThings)),
        Lighting(plate.truth, recipe.difficulty, draws(kLighting)),
        1.0 / plate.pixels_per_mm};
    Raster raster(camera.width(), camera.height());
    for (int y = 0; y < raster.height; ++y) {
        for (int x = 0; x < raster.width; ++x) {
            raster.at(x, y) = seen_at(scene, {x + 0.5, y + 0.5});
        }
    }
    Draws sensor = draws(kSensor);
    const Exposure exposure =
        drawn_exposure(light, recipe.difficulty, scene.layer.brightest_channel(), sensor);
    judge_visibility(scene, exposure, plate.truth);
    plate.image = exposed(std::move(raster), exposure, sensor);
    return plate;
}

} // namespace cospot::rendering
