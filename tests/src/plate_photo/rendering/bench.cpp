#include "bench.h"

#include <algorithm>
#include <cmath>

namespace cospot::rendering {
namespace {

using plate_photo::Light;

BenchKind drawn_bench(Light light, Draws &draws) {
    using enum BenchKind;
    if (light == Light::white) {
        return draws.one_of({dark, dark, paper, paper, wood, wood, glove, tiles, tiles, cloth});
    }
    return draws.one_of({cloth, cloth, cloth, dark, dark, paper, glove});
}

/// The lamp's own violet that things throw back, beside the glow of the layer.
Colour drawn_lamp(Light light, BenchKind kind, Draws &draws) {
    if (light == Light::white) {
        return {1.0F, 1.0F, 1.0F};
    }
    const double strength = light == Light::uv254 ? 0.35 : 0.05;
    if (kind == BenchKind::paper) { // brightened paper glows blue
        return Colour{0.35F, 0.45F, 1.0F} * (strength * draws.uniform(0.6, 2.0));
    }
    return Colour{0.45F, 0.25F, 1.0F} * (strength * draws.uniform(0.3, 1.5));
}

Colour drawn_tone(BenchKind kind, Draws &draws) {
    switch (kind) {
    case BenchKind::dark:
        return Colour{1.0F, 1.0F, 1.05F} * draws.evenly_in_logarithm(0.02, 0.15);
    case BenchKind::cloth:
        return Colour{1.0F, 1.0F, 1.1F} * draws.uniform(0.008, 0.03);
    case BenchKind::wood:
        return draws.one_of<Colour>(
            {{0.5F, 0.3F, 0.15F}, {0.3F, 0.15F, 0.07F}, {0.65F, 0.48F, 0.3F}});
    case BenchKind::glove:
        return draws.one_of<Colour>(
            {{0.05F, 0.12F, 0.5F}, {0.12F, 0.2F, 0.6F}, {0.2F, 0.1F, 0.45F}});
    case BenchKind::tiles:
        return draws.one_of<Colour>(
            {{0.75F, 0.75F, 0.72F}, {0.4F, 0.45F, 0.45F}, {0.65F, 0.5F, 0.4F}});
    case BenchKind::paper:
        break;
    }
    return Colour{1.0F, 1.0F, 0.98F} * draws.uniform(0.75, 1.0);
}

} // namespace

Bench::Bench(const Chromatogram &plate, Draws draws)
    : kind_(drawn_bench(plate.light, draws)), seed_(draws.bits()) {
    const double angle = draws.chance(0.5) ? 0.05 * draws.normal() : draws.uniform(-1.6, 1.6);
    cos_ = std::cos(angle);
    sin_ = std::sin(angle);
    shift_x_ = draws.uniform(0.0, 500.0);
    shift_y_ = draws.uniform(0.0, 500.0);
    pitch_mm_ = draws.uniform(70.0, 200.0);
    tone_ = drawn_tone(kind_, draws);
    lamp_ = drawn_lamp(plate.light, kind_, draws);
}

Colour Bench::at(double x_mm, double y_mm) const {
    const double x = cos_ * x_mm - sin_ * y_mm + shift_x_;
    const double y = sin_ * x_mm + cos_ * y_mm + shift_y_;
    return albedo(x, y) * lamp_;
}

Colour Bench::albedo(double x, double y) const {
    switch (kind_) {
    case BenchKind::dark:
        return tone_ * (1.0 + 0.3 * fractal_noise(x / 1.2, y / 1.2, seed_, 3) +
                        0.3 * smooth_noise(x / 60.0, y / 60.0, seed_ + 5));
    case BenchKind::cloth:
        return tone_ * (1.0 + 0.25 * std::sin(7.0 * x) * std::sin(7.0 * y) +
                        0.5 * fractal_noise(x / 25.0, y / 40.0, seed_, 3));
    case BenchKind::wood:
        return wood(x, y);
    case BenchKind::glove:
        return glove(x, y);
    case BenchKind::tiles:
        return tiles(x, y);
    case BenchKind::paper:
        return paper(x, y);
    }
    return tone_;
}

/// Planks with rings cut lengthwise: slow bands, distorted, with fine fibres along them.
Colour Bench::wood(double x, double y) const {
    const double plank = std::floor(x / pitch_mm_);
    const double from_seam = x - plank * pitch_mm_;
    const double warp = 6.0 * fractal_noise(x / 40.0, y / 180.0 + 7.0 * plank, seed_, 3);
    const double ring = 0.5 + 0.5 * std::sin(0.8 * x + warp);
    const double fibre = fractal_noise(x / 0.5, y / 18.0, seed_ + 3, 2);
    const double seam =
        1.0 - 0.7 * smooth_step(0.8, 0.2, std::min(from_seam, pitch_mm_ - from_seam));
    const double shade = 0.1 * smooth_noise(3.7 * plank, 0.5, seed_ + 4);
    return tone_ * ((0.72 + 0.3 * ring * ring + 0.25 * fibre + shade) * seam);
}

/// A palm in thin rubber: broad shades and sharp folds.
Colour Bench::glove(double x, double y) const {
    const double broad = fractal_noise(x / 35.0, y / 50.0, seed_, 3);
    const double fold = std::abs(fractal_noise(x / 14.0, y / 22.0, seed_ + 6, 2));
    const double shine = std::pow(std::max(0.0, 0.5 + broad), 8);
    return tone_ * (0.75 + 0.6 * broad - 0.35 * smooth_step(0.08, 0.0, fold)) +
           Colour{0.25F, 0.25F, 0.3F} * std::min(1.0, shine);
}

Colour Bench::tiles(double x, double y) const {
    const double column = std::floor(x / pitch_mm_);
    const double row = std::floor(y / pitch_mm_);
    const double from_joint = std::min({x - column * pitch_mm_, (column + 1) * pitch_mm_ - x,
                                        y - row * pitch_mm_, (row + 1) * pitch_mm_ - y});
    const double own = 1.0 + 0.06 * smooth_noise(column * 1.7 + 0.5, row * 2.3 + 0.5, seed_);
    const double glaze = 1.0 + 0.04 * fractal_noise(x / 20.0, y / 20.0, seed_ + 2, 2);
    return mixed(Colour{0.3F, 0.29F, 0.27F}, tone_ * (own * glaze),
                 smooth_step(1.2, 1.8, from_joint));
}

/// Sheets on a grey bench; every third has printed lines.
Colour Bench::paper(double x, double y) const {
    const double wide = 2.2 * pitch_mm_;
    const double column = std::floor(x / wide);
    const double from_edge = std::min(x - column * wide, (column + 1) * wide - x);
    const double fibre = 1.0 + 0.02 * fractal_noise(x, y, seed_, 2);
    Colour sheet = tone_ * fibre;
    if (seed_ % 3U == 0U) {
        const double line = std::abs(y / 8.0 - std::round(y / 8.0)) * 8.0;
        sheet = mixed(sheet, Colour{0.4F, 0.55F, 0.8F}, 0.6 * smooth_step(0.3, 0.1, line));
    }
    return mixed(Colour{0.12F, 0.12F, 0.13F}, sheet, smooth_step(4.0, 4.3, from_edge));
}

} // namespace cospot::rendering
