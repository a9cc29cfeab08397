#include "layer.h"

#include "handwriting.h"

#include <cmath>
#include <string>

namespace cospot::rendering {
namespace {

using plate_photo::Light;

/// What lies on a layer: how much light of each channel it takes (density) and adds.
struct Deposits {
    double scale;
    Raster density, glow;

    Deposits(int width, int height, double pixels_per_mm)
        : scale(pixels_per_mm), density(width, height), glow(width, height) {}
};

double density_of(double contrast) {
    return -std::log10(1.0 - contrast);
}

Colour colour_of(const std::array<double, 3> &channels) {
    return {static_cast<float>(channels[0]), static_cast<float>(channels[1]),
            static_cast<float>(channels[2])};
}

constexpr Colour kGrey{1.0F, 1.0F, 1.0F};

/// Adds `what` times value(x_mm, y_mm) to the pixels of a rectangle (mm).
template <typename Value>
void add(Raster &to, double scale, double left, double low, double right, double high, Colour what,
         Value value) {
    const auto first = [&](double mm) { return std::max(0, static_cast<int>(mm * scale)); };
    const int last_x = std::min(to.width - 1, static_cast<int>(right * scale));
    const int last_y = std::min(to.height - 1, static_cast<int>(high * scale));
    for (int y = first(low); y <= last_y; ++y) {
        for (int x = first(left); x <= last_x; ++x) {
            const double share = value((x + 0.5) / scale, (y + 0.5) / scale);
            if (share != 0.0) {
                to.at(x, y) = to.at(x, y) + what * share;
            }
        }
    }
}

void add_spots(const Chromatogram &plate, double clean, Deposits &on) {
    for (const TrueSpot &spot : plate.spots) {
        const Extent along = extent(spot.shape, 0.0005);
        const double across = half_width_mm(spot.shape, 0.0005);
        const double horns = std::abs(spot.shape.bend) * across * across;
        const bool glows = plate.light == Light::uv366;
        const Colour what =
            glows ? colour_of(spot.glows) * (clean * spot.contrast / (1.0 - spot.contrast))
                  : colour_of(spot.absorbs) * density_of(spot.contrast);
        add(glows ? on.glow : on.density, on.scale, spot.shape.x_mm - across, along.low_mm - horns,
            spot.shape.x_mm + across, along.high_mm + horns, what,
            [&](double x, double y) { return amount(spot.shape, x, y); });
    }
    for (const Streak &streak : plate.streaks) {
        const Colour what = kGrey * density_of(streak.contrast);
        add(on.density, on.scale, streak.x_mm - 2.0 * streak.width_mm, streak.low_mm - 1.0,
            streak.x_mm + 2.0 * streak.width_mm, streak.high_mm, what, [&](double x, double y) {
                const double u = (x - streak.x_mm) / (0.5 * streak.width_mm);
                const double length = streak.high_mm - streak.low_mm;
                const double fades = std::clamp((streak.high_mm - y) / length, 0.0, 1.0);
                return std::exp(-0.5 * u * u) * fades *
                       smooth_step(streak.low_mm - 1.0, streak.low_mm, y);
            });
    }
}

/// A stroke of pencil: rough, and as wide as the lead.
void add_stroke(const Stroke &stroke, double width_mm, double contrast, std::uint32_t roughness,
                Deposits &on) {
    const double soft = 0.5 / on.scale;
    const double reach = 0.5 * width_mm + soft;
    const double dx = stroke.x2 - stroke.x1;
    const double dy = stroke.y2 - stroke.y1;
    const double length = std::max(1e-9, dx * dx + dy * dy);
    // A line thinner than a pixel is as much paler.
    const double strength = density_of(contrast) * std::min(1.0, width_mm * on.scale);
    add(on.density, on.scale, std::min(stroke.x1, stroke.x2) - reach,
        std::min(stroke.y1, stroke.y2) - reach, std::max(stroke.x1, stroke.x2) + reach,
        std::max(stroke.y1, stroke.y2) + reach, kGrey * strength, [&](double x, double y) {
            const double t =
                std::clamp(((x - stroke.x1) * dx + (y - stroke.y1) * dy) / length, 0.0, 1.0);
            const double off = std::hypot(x - stroke.x1 - t * dx, y - stroke.y1 - t * dy);
            const double grain = 0.8 + 0.5 * fractal_noise(4.0 * x, 4.0 * y, roughness, 2);
            return grain * smooth_step(reach, reach - 2.0 * soft, off);
        });
}

/// A line across the plate along its parabola, drawn by a hand that shakes a little.
void add_pencil_line(const TrueLine &line, double width_mm, Draws &draws, Deposits &on) {
    const double lead = draws.uniform(0.2, 0.5);
    const std::uint32_t grain = draws.bits();
    const std::uint32_t shake = draws.bits();
    const double begin = draws.chance(0.6) ? 0.0 : draws.uniform(0.0, 0.06) * width_mm;
    const double end = draws.chance(0.6) ? width_mm : draws.uniform(0.94, 1.0) * width_mm;
    const double soft = 0.5 / on.scale;
    const double reach = 0.5 * lead + soft;
    const double strength = density_of(line.pencil) * std::min(1.0, lead * on.scale);
    const auto [lowest, highest] =
        std::minmax({line.line.left_mm, line.line.middle_mm, line.line.right_mm});
    add(on.density, on.scale, begin, lowest - 1.0, end, highest + 1.0, kGrey * strength,
        [&](double x, double y) {
            const double at =
                height_mm(line.line, x, width_mm) + 0.08 * smooth_noise(x / 15.0, 0.0, shake);
            const double rough = 0.8 + 0.5 * fractal_noise(4.0 * x, 4.0 * y, grain, 2);
            return rough * smooth_step(reach, reach - 2.0 * soft, std::abs(y - at));
        });
}

void add_front(const Chromatogram &plate, Draws &draws, Deposits &on) {
    const TrueLine &front = plate.front;
    const double width = plate.size.width_mm;
    if (front.pencil > 0.0) {
        add_pencil_line(front, width, draws, on);
    }
    if (front.wet_edge > 0.0) {
        const double soft = draws.uniform(0.3, 1.0);
        add(on.density, on.scale, 0.0, 0.0, width, plate.size.height_mm,
            kGrey * density_of(front.wet_edge), [&](double x, double y) {
                const double above = y - height_mm(front.line, x, width);
                return 1.0 - smooth_step(-soft, soft, above);
            });
    }
    if (front.residue > 0.0) {
        const double sigma = draws.uniform(0.3, 0.7);
        const bool glows = plate.light == Light::uv366;
        const Colour what =
            glows ? Colour{0.3F, 0.5F, 1.0F} * (0.06 * front.residue / (1.0 - front.residue))
                  : kGrey * density_of(front.residue);
        const double top = plate.size.height_mm;
        add(glows ? on.glow : on.density, on.scale, 0.0, 0.5 * top, width, top, what,
            [&](double x, double y) {
                const double v = (y - height_mm(front.line, x, width)) / sigma;
                return std::exp(-0.5 * v * v);
            });
    }
}

/// Ticks on the start line, numbers of lanes under it, a label at the head of the plate.
void add_marks(const Chromatogram &plate, Draws &draws, Deposits &on) {
    const std::uint32_t grain = draws.bits();
    const double contrast = draws.evenly_in_logarithm(0.1, 0.55);
    const bool ticks = draws.chance(0.4);
    const bool numbers = draws.chance(0.6);
    const double start = plate.start.line.middle_mm;
    const double letters = std::min(draws.uniform(1.8, 3.5), 0.45 * start);
    for (std::size_t k = 0; k < plate.lanes_mm.size(); ++k) {
        const double x = plate.lanes_mm[k];
        const double y = height_mm(plate.start.line, x, plate.size.width_mm);
        if (ticks) {
            add_stroke({x, y - 0.9, x, y + 0.6}, 0.3, contrast, grain, on);
        }
        if (numbers) {
            const std::string text = draws.chance(0.75) ? std::to_string(k + 1)
                                                        : std::string(1, "SARMCX"[draws.index(6)]);
            const double low = draws.uniform(0.12, 0.3) * start;
            for (const Stroke &s : written(text, x - 0.35 * letters, low, letters, draws)) {
                add_stroke(s, 0.3, contrast, grain, on);
            }
        }
    }
    const double above = plate.size.height_mm - plate.front.line.middle_mm;
    if (draws.chance(0.35) && above > 5.0) {
        const std::string text =
            std::string(1, "ABCDEF"[draws.index(6)]) + std::to_string(10 + draws.index(90));
        const double high = std::min(3.5, 0.5 * above);
        for (const Stroke &s : written(text, draws.uniform(0.1, 0.5) * plate.size.width_mm,
                                       plate.size.height_mm - 1.5 - high, high, draws)) {
            add_stroke(s, 0.3, contrast, grain, on);
        }
    }
}

void add_dirt(const Chromatogram &plate, Difficulty difficulty, Draws &draws, Deposits &on) {
    const std::size_t most = difficulty == Difficulty::easy    ? 3
                             : difficulty == Difficulty::usual ? 8
                                                               : 16;
    const std::size_t specks = draws.index(most + 1);
    for (std::size_t k = 0; k < specks; ++k) {
        const double x = draws.uniform(0.0, plate.size.width_mm);
        const double y = draws.uniform(0.0, plate.size.height_mm);
        const double radius = draws.evenly_in_logarithm(0.06, 0.3);
        const bool glows = plate.light == Light::uv366 && draws.chance(0.6);
        const Colour what = glows ? Colour{0.2F, 0.3F, 0.6F} * draws.uniform(0.1, 0.6)
                                  : kGrey * density_of(draws.uniform(0.1, 0.7));
        const double soft = 0.5 / on.scale;
        const double small = std::min(1.0, std::pow(radius * on.scale, 2));
        add(glows ? on.glow : on.density, on.scale, x - 2.0, y - 2.0, x + 2.0, y + 2.0,
            what * small, [&](double px, double py) {
                return smooth_step(radius + soft, radius - soft, std::hypot(px - x, py - y));
            });
    }
    const std::size_t scratches = draws.chance(0.4) ? draws.index(most / 4 + 1) : 0;
    for (std::size_t k = 0; k < scratches; ++k) {
        const double x = draws.uniform(0.0, plate.size.width_mm);
        const double y = draws.uniform(0.0, plate.size.height_mm);
        const double angle = draws.uniform(0.0, 6.283);
        const double length = draws.evenly_in_logarithm(2.0, 0.4 * plate.size.height_mm);
        add_stroke({x, y, x + length * std::cos(angle), y + length * std::sin(angle)},
                   draws.uniform(0.1, 0.35), draws.uniform(0.05, 0.4), draws.bits(), on);
    }
}

Colour clean_layer(const Chromatogram &plate, Draws &draws) {
    switch (plate.light) {
    case Light::uv254:
        return Colour{0.09F, 1.0F, 0.16F} + Colour{0.1F, 0.0F, 0.15F} * draws.uniform(0.0, 1.0);
    case Light::uv366:
        return Colour{0.35F, 0.2F, 1.0F} * 0.06 +
               Colour{0.01F, 0.015F, 0.0F} * draws.uniform(0.0, 1.0);
    case Light::white:
        break;
    }
    const Colour white{1.0F, 0.99F, 0.965F};
    if (!plate.stained) {
        return white;
    }
    const Colour tint = draws.one_of<Colour>({{1.0F, 0.84F, 0.62F},    // brown
                                              {0.85F, 0.94F, 1.0F},    // blue
                                              {1.0F, 0.95F, 0.6F},     // yellow
                                              {1.0F, 0.72F, 0.86F},    // violet
                                              {0.97F, 0.97F, 0.95F}}); // hardly any
    return mixed(white, tint, draws.uniform(0.3, 1.0));
}

/// How a layer differs from place to place: its grain, its thickness, an uneven stain.
class Unevenness {
public:
    Unevenness(const Chromatogram &plate, Difficulty difficulty, Draws &draws)
        : seed_(draws.bits()), grain_(draws.uniform(0.006, 0.02)),
          thickness_(draws.uniform(0.005, 0.025)),
          waves_(difficulty == Difficulty::easy ? 0.0
                                                : draws.uniform(0.0, plate.stained ? 0.1 : 0.03)),
          rise_(plate.stained ? draws.uniform(-0.12, 0.12) : 0.0), height_(plate.size.height_mm) {}

    [[nodiscard]] double at(double x, double y) const {
        return 1.0 + grain_ * fractal_noise(x / 0.5, y / 0.5, seed_, 2) +
               thickness_ * smooth_noise(x / 30.0, y / 30.0, seed_ + 7) +
               waves_ * fractal_noise(x / 12.0, y / 25.0, seed_ + 9, 2) +
               rise_ * (y / height_ - 0.5);
    }

private:
    std::uint32_t seed_;
    double grain_, thickness_, waves_, rise_, height_;
};

} // namespace

Layer::Layer(const Chromatogram &plate, Difficulty difficulty, double pixels_per_mm, Draws draws)
    : scale_(pixels_per_mm), clean_(clean_layer(plate, draws)),
      light_(std::max(2, static_cast<int>(plate.size.width_mm * pixels_per_mm)),
             std::max(2, static_cast<int>(plate.size.height_mm * pixels_per_mm))) {
    Deposits on(light_.width, light_.height, scale_);
    add_spots(plate, brightest_channel(), on);
    add_front(plate, draws, on);
    if (plate.start.pencil > 0.0) {
        add_pencil_line(plate.start, plate.size.width_mm, draws, on);
    }
    if (plate.light == Light::white) {
        add_marks(plate, draws, on);
    }
    add_dirt(plate, difficulty, draws, on);
    const Unevenness unevenness(plate, difficulty, draws);
    for (int y = 0; y < light_.height; ++y) {
        for (int x = 0; x < light_.width; ++x) {
            const Colour taken = on.density.at(x, y);
            const Colour left{std::pow(10.0F, -taken.r), std::pow(10.0F, -taken.g),
                              std::pow(10.0F, -taken.b)};
            const Colour layer = clean_ * unevenness.at((x + 0.5) / scale_, (y + 0.5) / scale_);
            light_.at(x, y) = layer * left + on.glow.at(x, y);
        }
    }
}

Colour Layer::at(double x_mm, double y_mm) const {
    const double x = std::clamp(x_mm * scale_ - 0.5, 0.0, light_.width - 1.001);
    const double y = std::clamp(y_mm * scale_ - 0.5, 0.0, light_.height - 1.001);
    const int i = static_cast<int>(x);
    const int j = static_cast<int>(y);
    const Colour low = mixed(light_.at(i, j), light_.at(i + 1, j), x - i);
    const Colour high = mixed(light_.at(i, j + 1), light_.at(i + 1, j + 1), x - i);
    return mixed(low, high, y - j);
}

} // namespace cospot::rendering
