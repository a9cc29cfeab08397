#include "flat_plate_scene.h"

#include <algorithm>
#include <cmath>
#include <random>

namespace cospot::plate_photo {

namespace {

double amount_at(const SceneSpot &spot, double x_mm, double y_mm) {
    const double u = (x_mm - spot.x_mm) / spot.across_mm;
    const double v = (y_mm - spot.y_mm) / spot.along_mm;
    double along = std::exp(-0.5 * v * v);
    if (spot.tail_mm > 0.0 && y_mm < spot.y_mm) {
        along = std::max(along, 0.6 * std::exp((y_mm - spot.y_mm) / spot.tail_mm));
    }
    return along * std::exp(-0.5 * u * u);
}

double line_density(const SceneLine &line, double x_mm, double y_mm, double width_mm) {
    const double u = 2.0 * x_mm / width_mm - 1.0;
    const double middle = line.middle_mm + 0.5 * (line.right_mm - line.left_mm) * u +
                          (0.5 * (line.right_mm + line.left_mm) - line.middle_mm) * u * u;
    return std::abs(y_mm - middle) <= 0.5 * line.thickness_mm ? line.density : 0.0;
}

std::uint8_t srgb_of(double linear) {
    const double value =
        linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1.0 / 2.4) - 0.055;
    return static_cast<std::uint8_t>(std::lround(255.0 * std::clamp(value, 0.0, 1.0)));
}

Colour light_at(const FlatScene &scene, double x_mm, double y_mm) {
    double grey = 0.0;
    for (const SceneLine &line : scene.lines) {
        grey += line_density(line, x_mm, y_mm, scene.size.width_mm);
    }
    for (const SceneDisc &disc : scene.discs) {
        grey +=
            std::hypot(x_mm - disc.x_mm, y_mm - disc.y_mm) < disc.radius_mm ? disc.density : 0.0;
    }
    Colour density{grey, grey, grey};
    for (const SceneSpot &spot : scene.spots) {
        const double amount = amount_at(spot, x_mm, y_mm);
        for (std::size_t c = 0; c < 3; ++c) {
            density[c] += amount * spot.density[c];
        }
    }
    const double lamp = scene.lamp ? scene.lamp(x_mm, y_mm) : 1.0;
    Colour light{};
    for (std::size_t c = 0; c < 3; ++c) {
        light[c] = lamp * scene.layer[c] * std::pow(10.0, -density[c]);
    }
    return light;
}

} // namespace

FlatPlate drawn(const FlatScene &scene) {
    const auto pixels = [&](double mm) {
        return static_cast<int>(std::lround(mm * scene.pixels_per_mm));
    };
    FlatPlate plate;
    plate.size = scene.size;
    plate.pixels_per_mm = scene.pixels_per_mm;
    plate.image = images::black_image(pixels(scene.size.width_mm), pixels(scene.size.height_mm));
    std::mt19937 random(scene.seed);
    std::normal_distribution<double> noise(0.0, 1.0);
    for (int y = 0; y < plate.image.height; ++y) {
        for (int x = 0; x < plate.image.width; ++x) {
            const Colour light = light_at(scene, (x + 0.5) / scene.pixels_per_mm,
                                          scene.size.height_mm - (y + 0.5) / scene.pixels_per_mm);
            std::uint8_t *pixel = &plate.image.rgb[plate.image.at(x, y)];
            for (const double value : light) {
                *pixel++ = srgb_of(value * (1.0 + scene.noise * noise(random)));
            }
        }
    }
    return plate;
}

} // namespace cospot::plate_photo
