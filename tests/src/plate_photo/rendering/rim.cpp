#include "rim.h"

#include <algorithm>
#include <cmath>

namespace cospot::rendering {
namespace {

using plate_photo::Light;

/// What a lamp makes of the support, glass or metal, beside a layer that glows.
double support_share(Light light) {
    return light == Light::white ? 0.6 : light == Light::uv254 ? 0.1 : 0.02;
}

} // namespace

Rim::Rim(const Chromatogram &plate, Difficulty difficulty, Draws draws)
    : width_(plate.size.width_mm), height_(plate.size.height_mm), seed_(draws.bits()) {
    const bool glass = draws.chance(0.5);
    corner_mm_ = draws.chance(0.3) ? draws.uniform(0.3, 2.0) : 0.05;
    rough_mm_ = draws.uniform(0.02, 0.12);
    thickness_mm_ = glass ? draws.uniform(1.0, 2.2) : draws.uniform(0.2, 0.4);
    bare_mm_ = draws.chance(0.2) ? draws.uniform(0.2, 0.6) : 0.0;
    const double share = support_share(plate.light);
    support_ = (glass ? Colour{0.75F, 0.85F, 0.8F} : Colour{0.85F, 0.85F, 0.88F}) * share;
    side_ = (glass ? Colour{0.35F, 0.55F, 0.45F} : Colour{0.7F, 0.7F, 0.72F}) * share;
    const double towards = draws.uniform(0.0, 6.283);
    shade_x_ = std::cos(towards) * thickness_mm_;
    shade_y_ = std::sin(towards) * thickness_mm_;
    shade_soft_ = draws.uniform(0.5, 4.0);
    shade_strength_ = draws.uniform(0.1, 0.6);
    const std::size_t most = difficulty == Difficulty::easy    ? 1
                             : difficulty == Difficulty::usual ? 4
                                                               : 8;
    const std::size_t count = draws.chance(0.4) ? draws.index(most) : 0;
    for (std::size_t k = 0; k < count; ++k) {
        const double along = draws.uniform(0.0, 1.0);
        const double radius = draws.evenly_in_logarithm(0.4, 2.0);
        const double out = draws.uniform(0.2, 0.8) * radius;
        switch (draws.index(4)) {
        case 0:
            chips_.push_back({-out, along * height_, radius});
            break;
        case 1:
            chips_.push_back({width_ + out, along * height_, radius});
            break;
        case 2:
            chips_.push_back({along * width_, -out, radius});
            break;
        default:
            chips_.push_back({along * width_, height_ + out, radius});
        }
    }
}

double Rim::inside(double x_mm, double y_mm) const {
    const double from_x = std::min(x_mm, width_ - x_mm);
    const double from_y = std::min(y_mm, height_ - y_mm);
    double depth = std::min(from_x, from_y);
    if (depth > 4.0 || depth < -6.0) {
        return depth;
    }
    const double in_x = corner_mm_ - from_x;
    const double in_y = corner_mm_ - from_y;
    if (in_x > 0.0 && in_y > 0.0) {
        depth = corner_mm_ - std::hypot(in_x, in_y);
    }
    depth -= rough_mm_ * (0.5 + 0.5 * fractal_noise(x_mm / 0.8, y_mm / 0.8, seed_, 2));
    for (const Chip &chip : chips_) {
        const double ragged =
            chip.radius * (1.0 + 0.25 * smooth_noise(2.0 * x_mm, 2.0 * y_mm, seed_));
        depth = std::min(depth, std::hypot(x_mm - chip.x, y_mm - chip.y) - ragged);
    }
    return depth;
}

double Rim::inside_layer(double x_mm, double y_mm) const {
    const double depth = inside(x_mm, y_mm);
    if (bare_mm_ == 0.0 || depth > 4.0) {
        return depth;
    }
    return depth - bare_mm_ * (0.6 + 0.4 * smooth_noise(x_mm / 2.0, y_mm / 2.0, seed_ + 3));
}

double Rim::shade(double x_mm, double y_mm) const {
    const double x = x_mm - shade_x_;
    const double y = y_mm - shade_y_;
    const double depth = std::min({x, width_ - x, y, height_ - y});
    return 1.0 - shade_strength_ * smooth_step(-shade_soft_, 0.5 * shade_soft_, depth);
}

} // namespace cospot::rendering
