#include "plate_scene.h"

#include "plate_photo/homography.h"
#include "plate_photo/lens.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <random>

namespace cospot::plate_photo {

namespace {

using SceneLight = std::array<double, 3>; ///< red, green, blue, 0 to 1

SceneLight scaled(SceneLight light, double factor) {
    return {light[0] * factor, light[1] * factor, light[2] * factor};
}

/// 0 to 1, from whole numbers.
double chance(int x, int y, std::uint32_t seed) {
    std::uint32_t h = seed * 0x9E3779B1U + static_cast<std::uint32_t>(x) * 0x85EBCA77U +
                      static_cast<std::uint32_t>(y) * 0xC2B2AE3DU;
    h = (h ^ (h >> 15)) * 0x2C1B3C6DU;
    h = (h ^ (h >> 12)) * 0x297A2D39U;
    return (h ^ (h >> 15)) / 4294967296.0;
}

/// Waves of about one unit's length, 0 to 1.
double waves(double x, double y, std::uint32_t seed) {
    const int left = static_cast<int>(std::floor(x));
    const int top = static_cast<int>(std::floor(y));
    const double u = x - left;
    const double v = y - top;
    const double a = std::lerp(chance(left, top, seed), chance(left + 1, top, seed), u);
    const double b = std::lerp(chance(left, top + 1, seed), chance(left + 1, top + 1, seed), u);
    return std::lerp(a, b, v);
}

/// Places on the ground are mm in the plane of the plate from its upper left corner.
SceneLight ground_light(const PlateScene &scene, Place mm) {
    const std::uint32_t seed = scene.seed;
    const double even = 0.9 + 0.2 * waves(mm.x / 30, mm.y / 30, seed);
    switch (scene.ground) {
    case PlateScene::Ground::dark_bench:
        return scaled({0.13, 0.13, 0.15}, even + 0.3 * waves(mm.x, mm.y, seed));
    case PlateScene::Ground::white_paper:
        return scaled({0.90, 0.90, 0.88}, 0.98 + 0.02 * even);
    case PlateScene::Ground::paper_on_bench: {
        const bool paper = mm.x > -25 && mm.y > -20 && mm.x < scene.size.width_mm + 30 &&
                           mm.y < scene.size.height_mm + 22;
        return paper ? SceneLight{0.80, 0.82, 0.84} : scaled({0.16, 0.15, 0.14}, even);
    }
    case PlateScene::Ground::wood: {
        const double bend = mm.y + 6 * waves(mm.x / 60, mm.y / 60, seed + 1);
        const double grain =
            waves(mm.x / 70, bend / 1.5, seed) + 0.5 * waves(mm.x / 40, bend / 0.5, seed + 2);
        return scaled({0.60, 0.42, 0.25}, 0.7 + 0.35 * grain);
    }
    case PlateScene::Ground::cloth:
        return scaled({0.10, 0.10, 0.13},
                      0.5 + 0.5 * std::abs(std::sin(4 * mm.x) * std::sin(4 * mm.y)) +
                          waves(mm.x / 12, mm.y / 25, seed));
    case PlateScene::Ground::glove:
        return scaled({0.20, 0.35, 0.75}, 0.5 + 0.8 * waves(mm.x / 25, mm.y / 15, seed));
    case PlateScene::Ground::tiles: {
        const double x = mm.x + 20 - 45 * std::floor((mm.x + 20) / 45);
        const double y = mm.y + 33 - 45 * std::floor((mm.y + 33) / 45);
        return x < 1.5 || y < 1.5 ? SceneLight{0.30, 0.30, 0.30} : scaled({0.62, 0.66, 0.64}, even);
    }
    }
    return {};
}

SceneLight layer_light(PlateScene::Layer layer) {
    switch (layer) {
    case PlateScene::Layer::white:
        return {0.93, 0.93, 0.90};
    case PlateScene::Layer::brown:
        return {0.62, 0.42, 0.26};
    case PlateScene::Layer::yellow:
        return {0.90, 0.80, 0.40};
    case PlateScene::Layer::green_glow:
        return {0.25, 0.75, 0.28};
    case PlateScene::Layer::violet_glow:
        return {0.22, 0.12, 0.42};
    }
    return {};
}

/// Spots in lanes, a pencil line at the start and a wet front.
SceneLight plate_light(const PlateScene &scene, Place mm) {
    const PlateSize size = scene.size;
    SceneLight light =
        scaled(layer_light(scene.layer), 0.97 + 0.06 * waves(mm.x / 40, mm.y / 40, scene.seed));
    const bool glows = scene.layer == PlateScene::Layer::violet_glow;
    const int lanes = std::max(1, static_cast<int>(size.width_mm / 12));
    for (int lane = 0; lane < lanes; ++lane) {
        for (int spot = 0; spot < 3; ++spot) {
            const double x = mm.x - size.width_mm * (lane + 0.5) / lanes;
            const double y = mm.y - size.height_mm * (0.15 + 0.7 * chance(lane, spot, scene.seed));
            const double density = 0.5 * chance(spot, lane, scene.seed + 3) *
                                   std::exp(-(x * x + y * y) / (2 * 1.8 * 1.8));
            light = scaled(light, glows ? 1 + 4 * density : 1 - density);
        }
    }
    if (std::abs(mm.y - (size.height_mm - 10)) < 0.2 && mm.x > 3 && mm.x < size.width_mm - 3) {
        light = scaled(light, 0.7);
    }
    if (mm.y < 8) {
        light = scaled(light, 1.03);
    }
    return light;
}

bool on_plate(const PlateScene &scene, Place mm) {
    const double right = scene.size.width_mm - mm.x;
    const double below = scene.size.height_mm - mm.y;
    return mm.x > 0 && mm.y > 0 && right > 0 && below > 0 &&
           !(scene.chipped && right + below < 5 + waves(right, below, scene.seed));
}

/// What lies over the plate or beside it, if anything does there.
bool covered_by_things(const PlateScene &scene, Place mm, SceneLight &light) {
    const PlateSize size = scene.size;
    if (scene.finger) {
        const double y = (mm.y - 0.6 * size.height_mm) / 8.0;
        const double x = mm.x - (size.width_mm - 5);
        if (std::abs(y) < 1 && x > 8 * (1 - std::sqrt(1 - y * y))) {
            light = scaled({0.78, 0.58, 0.48}, 1 - 0.4 * y * y);
            return true;
        }
    }
    if (scene.ruler && mm.x > -22 && mm.x < -3 && mm.y > -15 && mm.y < size.height_mm + 12) {
        const bool tick = mm.x > -8 && mm.y - std::floor(mm.y) < 0.2;
        light = tick ? SceneLight{0.1, 0.1, 0.1} : SceneLight{0.85, 0.80, 0.55};
        return true;
    }
    return false;
}

/// How much of the light arrives: less under a shadow, and close beside the plate.
double lit(const PlateScene &scene, Place mm, bool plate) {
    const PlateSize size = scene.size;
    double share = 0.85 + 0.15 * std::cos(0.01 * (mm.x - 20.0 * (scene.seed % 7)));
    if (scene.shadow && mm.y + 0.4 * mm.x < 0.45 * size.height_mm) {
        share *= 0.6;
    }
    if (!plate) {
        const double x = std::max({-mm.x, mm.x - size.width_mm, 0.0});
        const double y = std::max({-mm.y, mm.y - size.height_mm, 0.0});
        share *= 1 - 0.35 * std::exp(-std::hypot(x, y) / 0.5);
    }
    return share;
}

double radians(double degrees) {
    return degrees * std::numbers::pi / 180.0;
}

/// Corners of the plate in a photo without distortion, by turning it in space.
Corners projected(const PlateScene &scene, double far) {
    Corners corners;
    const double focal = scene.focal_length * std::hypot(scene.width, scene.height) / 2;
    const double a = radians(scene.turn);
    const double b = radians(scene.yaw);
    const double c = radians(scene.tilt);
    for (std::size_t i = 0; i < 4; ++i) {
        const double x0 = (i == 1 || i == 2 ? 0.5 : -0.5) * scene.size.width_mm;
        const double y0 = (i >= 2 ? 0.5 : -0.5) * scene.size.height_mm;
        const double x1 = x0 * std::cos(b);
        const double z1 = x0 * std::sin(b);
        const double y2 = y0 * std::cos(c) - z1 * std::sin(c);
        const double z2 = y0 * std::sin(c) + z1 * std::cos(c);
        const double x3 = x1 * std::cos(a) - y2 * std::sin(a);
        const double y3 = x1 * std::sin(a) + y2 * std::cos(a);
        corners[i] = {focal * x3 / (far + z2), focal * y3 / (far + z2)};
    }
    return corners;
}

/// As far away, and so moved, that the plate fills what it should and lies near the middle.
Corners placed(const PlateScene &scene) {
    double nearest = 1.0;
    double farthest = 1e5;
    Corners corners;
    Place centre;
    for (int round = 0; round < 60; ++round) {
        const double far = std::sqrt(nearest * farthest);
        corners = projected(scene, far + scene.size.height_mm);
        double left = 0;
        double right = 0;
        double above = 0;
        double below = 0;
        for (const Place place : corners) {
            left = std::min(left, place.x);
            right = std::max(right, place.x);
            above = std::min(above, place.y);
            below = std::max(below, place.y);
        }
        centre = {(left + right) / 2, (above + below) / 2};
        const double fill = std::max((right - left) / scene.width, (below - above) / scene.height);
        (fill > scene.fill ? nearest : farthest) = far;
    }
    const double free = 0.5 * (0.96 - scene.fill);
    for (Place &place : corners) {
        place.x += scene.width * (0.5 + free * (chance(1, 2, scene.seed) - 0.5)) - centre.x;
        place.y += scene.height * (0.5 + free * (chance(3, 4, scene.seed) - 0.5)) - centre.y;
    }
    return corners;
}

/// The light of all that `of` gives, seen through a soft lens and with noise.
template <typename LightOf>
images::Image exposed(const PlateScene &scene, const LightOf &light_of) {
    images::Image image = images::black_image(scene.width, scene.height);
    std::mt19937 random(scene.seed);
    std::normal_distribution<double> noise(0.0, 1.0);
    constexpr std::array<double, 3> offsets{-0.5, 0.0, 0.5};
    for (int y = 0; y < scene.height; ++y) {
        for (int x = 0; x < scene.width; ++x) {
            SceneLight sum{};
            for (const double dy : offsets) {
                for (const double dx : offsets) {
                    const SceneLight light = light_of(Place{x + 0.5 + dx, y + 0.5 + dy});
                    for (std::size_t c = 0; c < 3; ++c) {
                        sum[c] += light[c] / 9;
                    }
                }
            }
            for (std::size_t c = 0; c < 3; ++c) {
                const double value = 255 * sum[c] + scene.noise * noise(random);
                image.rgb[image.at(x, y) + c] =
                    static_cast<std::uint8_t>(std::clamp(std::lround(value), 0L, 255L));
            }
        }
    }
    return image;
}

} // namespace

PlatePhoto photo_of(const PlateScene &scene) {
    const PlateSize size = scene.size;
    Lens lens = lens_of(scene.width, scene.height);
    lens.radial = scene.radial;
    const Corners straight = placed(scene);
    const Homography map =
        homography(straight, {Place{0, 0}, Place{size.width_mm, 0},
                              Place{size.width_mm, size.height_mm}, Place{0, size.height_mm}});
    PlatePhoto photo;
    photo.image = exposed(scene, [&](Place place) {
        const Place mm = mapped(map, straightened(lens, place));
        SceneLight light{};
        if (covered_by_things(scene, mm, light)) {
            return light;
        }
        const bool plate = on_plate(scene, mm);
        light = plate ? plate_light(scene, mm) : ground_light(scene, mm);
        return scaled(light, lit(scene, mm, plate));
    });
    photo.outline.lens = lens;
    for (std::size_t i = 0; i < 4; ++i) {
        photo.outline.corners[i] = seen(lens, straight[i]);
    }
    return photo;
}

images::Image photo_without_plate(const PlateScene &scene) {
    return exposed(scene, [&](Place place) {
        const Place mm{place.x / 6 - 30, place.y / 6 - 20};
        return scaled(ground_light(scene, mm), 0.85 + 0.15 * std::cos(0.01 * mm.x));
    });
}

PlateScene random_scene(std::uint32_t seed) {
    std::mt19937 random(seed);
    const auto between = [&](double low, double high) {
        return low + (high - low) * (static_cast<double>(random()) / 4294967296.0);
    };
    const auto one_of = [&](int count) {
        return static_cast<int>(random() % static_cast<unsigned>(count));
    };
    constexpr std::array<PlateSize, 5> sizes{PlateSize{20, 50}, PlateSize{25, 75},
                                             PlateSize{50, 100}, PlateSize{100, 100},
                                             PlateSize{200, 200}};
    PlateScene scene;
    scene.seed = seed;
    if (one_of(2) == 1) {
        std::swap(scene.width, scene.height);
    }
    scene.layer = static_cast<PlateScene::Layer>(one_of(5));
    const bool dark = scene.layer == PlateScene::Layer::green_glow ||
                      scene.layer == PlateScene::Layer::violet_glow;
    scene.ground =
        dark ? (one_of(2) == 0 ? PlateScene::Ground::cloth : PlateScene::Ground::dark_bench)
             : static_cast<PlateScene::Ground>(one_of(7));
    scene.size = sizes[static_cast<std::size_t>(one_of(5))];
    scene.fill = between(0.4, 0.9);
    const double direction = between(0, 2 * std::numbers::pi);
    const double lean = between(0, 30);
    scene.tilt = lean * std::cos(direction);
    scene.yaw = lean * std::sin(direction);
    scene.turn = between(-15, 15);
    scene.focal_length = between(1.0, 2.0);
    scene.radial = one_of(2) == 0 ? 0.0 : between(-0.03, 0.0);
    scene.noise = between(0.5, 6);
    scene.shadow = one_of(4) == 0;
    scene.finger = one_of(4) == 0;
    scene.ruler = one_of(4) == 0;
    scene.chipped = one_of(4) == 0;
    return scene;
}

} // namespace cospot::plate_photo
