#include "things.h"

#include <algorithm>
#include <cmath>

namespace cospot::rendering {
namespace {

using plate_photo::Light;
using plate_photo::PlateSize;

/// A place at the rim of a plate from which something may reach a little way in.
struct Grip {
    double x, y;         ///< where its tip is
    double out_x, out_y; ///< unit vector away from the plate
};

/// Above the front, or beside the outer lanes: as deep as nothing is covered.
Grip drawn_grip(const Chromatogram &plate, Draws &draws) {
    const PlateSize &size = plate.size;
    const auto &front = plate.front.line;
    const double head =
        size.height_mm - std::max({front.left_mm, front.middle_mm, front.right_mm}) - 1.0;
    const double lean = draws.uniform(-0.6, 0.6);
    const double across = std::sin(lean);
    const double away = std::cos(lean);
    double beside = plate.lanes_mm.front();
    double lowest = size.height_mm;
    for (const TrueSpot &spot : plate.spots) {
        beside = std::min({beside, spot.shape.x_mm - spot.width_mm,
                           size.width_mm - spot.shape.x_mm - spot.width_mm});
        lowest = std::min(lowest, spot.low_mm);
    }
    const double side_depth = std::clamp(0.6 * beside, 0.0, 5.0);
    const double place = draws.uniform(0.15, 0.85);
    switch (draws.index(3)) {
    case 0:
        return {side_depth, place * size.height_mm, -away, across};
    case 1:
        return {size.width_mm - side_depth, place * size.height_mm, away, across};
    default:
        return {place * size.width_mm, size.height_mm - std::clamp(0.6 * head, 0.0, 8.0), across,
                away};
    }
}

} // namespace

Things::Things(const Chromatogram &plate, Difficulty difficulty, Draws draws)
    : lamp_(plate.light == Light::white   ? Colour{1.0F, 1.0F, 1.0F}
            : plate.light == Light::uv254 ? Colour{0.12F, 0.07F, 0.3F}
                                          : Colour{0.015F, 0.008F, 0.03F}) {
    const double often = difficulty == Difficulty::easy    ? 0.1
                         : difficulty == Difficulty::usual ? 0.3
                                                           : 0.5;
    if (draws.chance(often)) {
        if (draws.chance(0.65)) {
            hold_with_fingers(plate, draws);
        } else {
            hold_with_tweezers(plate, draws);
        }
    }
    if (draws.chance(0.7 * often)) {
        lay_ruler(plate, draws);
    }
}

void Things::hold_with_fingers(const Chromatogram &plate, Draws &draws) {
    const bool gloved = draws.chance(0.7);
    const Colour skin =
        gloved ? draws.one_of<Colour>(
                     {{0.08F, 0.18F, 0.6F}, {0.25F, 0.12F, 0.5F}, {0.03F, 0.03F, 0.035F}})
               : draws.one_of<Colour>(
                     {{0.75F, 0.45F, 0.33F}, {0.45F, 0.25F, 0.16F}, {0.85F, 0.58F, 0.45F}});
    const std::size_t count = 1 + draws.index(2);
    for (std::size_t k = 0; k < count; ++k) {
        const Grip grip = drawn_grip(plate, draws);
        const double radius = draws.uniform(6.0, 9.0);
        rods_.push_back({grip.x + (radius + 90.0) * grip.out_x,
                         grip.y + (radius + 90.0) * grip.out_y, grip.x + radius * grip.out_x,
                         grip.y + radius * grip.out_y, 1.25 * radius, radius, skin, gloved,
                         gloved ? 0.0 : draws.uniform(0.9, 1.5)});
    }
}

void Things::hold_with_tweezers(const Chromatogram &plate, Draws &draws) {
    const Grip grip = drawn_grip(plate, draws);
    const Colour steel = Colour{0.55F, 0.56F, 0.58F} * draws.uniform(0.6, 1.1);
    for (const double side : {-1.0, 1.0}) {
        const double far_x = grip.x + 110.0 * grip.out_x + side * 7.0 * grip.out_y;
        const double far_y = grip.y + 110.0 * grip.out_y - side * 7.0 * grip.out_x;
        rods_.push_back({far_x, far_y, grip.x + side * 0.6 * grip.out_y,
                         grip.y - side * 0.6 * grip.out_x, 3.5, 0.8, steel, true, 0.0});
    }
}

void Things::lay_ruler(const Chromatogram &plate, Draws &draws) {
    const bool left = draws.chance(0.5);
    const double skew = 0.03 * draws.normal();
    const double angle = 1.5708 + skew;
    Ruler ruler{};
    ruler.width = draws.uniform(18.0, 30.0);
    ruler.length = draws.one_of({150.0, 200.0, 300.0});
    ruler.cos = std::cos(angle);
    ruler.sin = std::sin(angle);
    const double gap = draws.uniform(1.5, 12.0) + std::abs(skew) * ruler.length; // beside the plate
    ruler.x = left ? -gap : plate.size.width_mm + gap + ruler.width;
    ruler.y = draws.uniform(-0.6, 0.0) * std::max(0.0, ruler.length - plate.size.height_mm);
    ruler.body =
        draws.one_of<Colour>({{0.85F, 0.85F, 0.83F}, {0.5F, 0.51F, 0.52F}, {0.75F, 0.6F, 0.35F}});
    ruler.ink = Colour{0.04F, 0.04F, 0.05F};
    ruler_ = ruler;
}

Colour Things::over(Colour below, double x_mm, double y_mm, double pixel_mm) const {
    Colour seen = below;
    if (ruler_) {
        Ruler lit = *ruler_;
        lit.body = lit.body * lamp_;
        lit.ink = lit.ink * lamp_;
        seen = over_ruler(lit, seen, x_mm, y_mm, pixel_mm);
    }
    for (const Rod &rod : rods_) {
        Rod lit = rod;
        lit.colour = rod.colour * lamp_;
        seen = over_rod(lit, seen, x_mm, y_mm, pixel_mm);
    }
    return seen;
}

Colour Things::over_rod(const Rod &rod, Colour below, double x, double y, double pixel_mm) {
    const double dx = rod.x2 - rod.x1;
    const double dy = rod.y2 - rod.y1;
    const double length = std::hypot(dx, dy);
    const auto off_axis = [&](double px, double py, double &t) {
        t = std::clamp(((px - rod.x1) * dx + (py - rod.y1) * dy) / (length * length), 0.0, 1.0);
        return std::hypot(px - rod.x1 - t * dx, py - rod.y1 - t * dy);
    };
    double t = 0.0;
    // Its shadow, a little to the lower right.
    const double shade = off_axis(x - 1.2, y + 1.5, t) / std::lerp(rod.radius1, rod.radius2, t);
    below = below * (1.0 - 0.35 * smooth_step(1.35, 0.75, shade));
    const double off = off_axis(x, y, t);
    const double radius = std::lerp(rod.radius1, rod.radius2, t);
    if (off > radius + pixel_mm) {
        return below;
    }
    const double round = std::sqrt(std::max(0.0, 1.0 - std::pow(off / radius, 2)));
    const double wrinkle = 1.0 + 0.05 * fractal_noise(x / 1.5, y / 1.5, 77, 2);
    Colour colour = rod.colour * ((0.4 + 0.6 * round) * wrinkle);
    if (rod.shiny) {
        const double glint = std::pow(round, 20);
        colour = mixed(colour, Colour{1.0F, 1.0F, 1.0F} * (3.0 * rod.colour.g), 0.35 * glint);
    }
    if (rod.nail > 0.0) {
        const double along = std::hypot(x - rod.x2, y - rod.y2) / (rod.nail * radius);
        colour = mixed(colour, rod.colour * 1.15 + Colour{0.05F, 0.02F, 0.03F} * rod.colour.r,
                       smooth_step(0.62, 0.52, along));
    }
    return mixed(below, colour, smooth_step(radius + 0.5 * pixel_mm, radius - 0.5 * pixel_mm, off));
}

Colour Things::over_ruler(const Ruler &ruler, Colour below, double x_mm, double y_mm,
                          double pixel_mm) {
    const double along = (x_mm - ruler.x) * ruler.cos + (y_mm - ruler.y) * ruler.sin;
    const double across = -(x_mm - ruler.x) * ruler.sin + (y_mm - ruler.y) * ruler.cos;
    const double inside =
        std::min({along + 3.0, ruler.length + 3.0 - along, across, ruler.width - across});
    if (inside < -pixel_mm) {
        return below;
    }
    Colour colour = ruler.body * (1.0 + 0.02 * smooth_noise(along / 20.0, across / 5.0, 5));
    const double mark = std::round(along);
    const int number = static_cast<int>(mark);
    if (number >= 0 && mark <= ruler.length) {
        const double long_to = number % 10 == 0 ? 7.0 : number % 5 == 0 ? 5.5 : 3.5;
        const double wide = std::max(0.2, 0.7 * pixel_mm);
        const double strength = std::min(1.0, 0.2 / wide);
        if (across < long_to) {
            colour = mixed(colour, ruler.ink,
                           strength * smooth_step(0.5 * wide + 0.3 * pixel_mm, 0.5 * wide - 0.05,
                                                  std::abs(along - mark)));
        }
    }
    // Figures beside the long marks: upright bars do for what cannot be read at this size.
    const double from_ten = along - 10.0 * std::round(along / 10.0);
    if (across > 8.0 && across < 10.5 && std::abs(std::abs(from_ten) - 0.8) < 0.25) {
        colour = mixed(colour, ruler.ink, 0.7);
    }
    return mixed(below, colour, smooth_step(-0.5 * pixel_mm, 0.5 * pixel_mm, inside));
}

} // namespace cospot::rendering
