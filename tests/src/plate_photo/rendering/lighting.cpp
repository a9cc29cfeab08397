#include "lighting.h"

#include <algorithm>
#include <cmath>

namespace cospot::rendering {
namespace {

using plate_photo::Light;

double of_difficulty(Difficulty difficulty, double easy, double usual, double hard) {
    return difficulty == Difficulty::easy ? easy : difficulty == Difficulty::usual ? usual : hard;
}

} // namespace

Lighting::Lighting(const Chromatogram &plate, Difficulty difficulty, Draws draws)
    : middle_x_(0.5 * plate.size.width_mm), middle_y_(0.5 * plate.size.height_mm),
      half_mm_(std::hypot(middle_x_, middle_y_)), seed_(draws.bits()) {
    const double slope = of_difficulty(difficulty, 0.06, 0.15, 0.3);
    const double towards = draws.uniform(0.0, 6.283);
    const double steep = draws.uniform(0.0, slope);
    slope_x_ = steep * std::cos(towards);
    slope_y_ = steep * std::sin(towards);
    lamp_x_ = draws.uniform(-2.0, 2.0);
    lamp_y_ = draws.uniform(-2.0, 2.0);
    lamp_height_ = draws.uniform(of_difficulty(difficulty, 6.0, 4.0, 2.5), 8.0);
    vignette_ = draws.uniform(0.0, of_difficulty(difficulty, 0.1, 0.25, 0.4));
    waves_ = draws.uniform(0.0, of_difficulty(difficulty, 0.01, 0.03, 0.05));
    const double warm = plate.light == Light::white
                            ? of_difficulty(difficulty, 0.03, 0.08, 0.15) * draws.normal()
                            : 0.0;
    const double bounded = std::clamp(warm, -0.25, 0.25);
    cast_ = Colour{static_cast<float>(1.0 + bounded), 1.0F, static_cast<float>(1.0 - bounded)};
    draw_shadows(difficulty, draws);
}

void Lighting::draw_shadows(Difficulty difficulty, Draws &draws) {
    if (!draws.chance(of_difficulty(difficulty, 0.0, 0.3, 0.6))) {
        return;
    }
    const std::size_t count = 1 + draws.index(2);
    for (std::size_t k = 0; k < count; ++k) {
        const double angle = draws.uniform(0.0, 6.283);
        const double from = draws.uniform(-0.7, 0.9) * half_mm_;
        const double to = draws.chance(0.5) ? 1e6 : from + draws.uniform(0.2, 0.8) * half_mm_;
        const double edge =
            draws.chance(0.3) ? draws.uniform(0.3, 1.5) : draws.evenly_in_logarithm(3.0, 40.0);
        shadows_.push_back({std::cos(angle), std::sin(angle), from, to, edge,
                            draws.uniform(0.1, of_difficulty(difficulty, 0.2, 0.3, 0.45))});
    }
}

Colour Lighting::at(double x_mm, double y_mm, double radius) const {
    const double x = (x_mm - middle_x_) / half_mm_;
    const double y = (y_mm - middle_y_) / half_mm_;
    double light = std::max(0.15, 1.0 + slope_x_ * x + slope_y_ * y);
    // A lamp near by: inverse squares, relative to the middle of the plate.
    const double h2 = lamp_height_ * lamp_height_;
    light *= (lamp_x_ * lamp_x_ + lamp_y_ * lamp_y_ + h2) /
             (std::pow(x - lamp_x_, 2) + std::pow(y - lamp_y_, 2) + h2);
    light *= 1.0 + waves_ * smooth_noise(1.5 * x, 1.5 * y, seed_);
    light *= 1.0 - vignette_ * radius * radius;
    for (const Shadow &shadow : shadows_) {
        const double t =
            (x_mm - middle_x_) * shadow.across_x + (y_mm - middle_y_) * shadow.across_y;
        const double half = 0.5 * shadow.edge_mm;
        light *= 1.0 - shadow.strength * smooth_step(shadow.from - half, shadow.from + half, t) *
                           smooth_step(shadow.to + half, shadow.to - half, t);
    }
    return cast_ * light;
}

} // namespace cospot::rendering
