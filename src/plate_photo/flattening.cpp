#include "plate_photo/flattening.h"

#include "plate_photo/homography.h"
#include "plate_photo/lens.h"
#include "plate_photo/rectangle_shape.h"
#include "shared/error.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

namespace cospot::plate_photo {

namespace {

constexpr double kMostPixels = 2.5e6;
constexpr double kLeastEdgePx = 20.0;
constexpr double kHandErrorPx = 2.0; ///< of corners that the user gave
constexpr std::array<const char *, 4> kCornerNames{"upper left", "upper right", "lower right",
                                                   "lower left"};

InputError bad_corners(std::string found, std::string expected) {
    return {Where{.file = "command line, --corners", .line = 0, .column = {}}, std::move(found),
            std::move(expected)};
}

/// Twice the area of the triangle a b c; above 0 where it turns as the hands of a clock do.
double turn(Place a, Place b, Place c) {
    return (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
}

void require_corners(const images::Image &photo, const Corners &corners) {
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const auto [x, y] = corners[i];
        if (!(x >= 0.0 && x <= photo.width && y >= 0.0 && y <= photo.height)) {
            throw bad_corners(
                fmt::format("the {} corner at {:.1f}, {:.1f}", kCornerNames[i], x, y),
                fmt::format("a place in the photo of {} x {} pixels", photo.width, photo.height));
        }
    }
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const std::size_t next = (i + 1) % 4;
        const double edge = distance(corners[i], corners[next]);
        if (edge < kLeastEdgePx) {
            throw bad_corners(fmt::format("{:.1f} pixels from the {} to the {} corner", edge,
                                          kCornerNames[i], kCornerNames[next]),
                              fmt::format("at least {} pixels", kLeastEdgePx));
        }
        // Less than 3 degrees, or turning back: no plate in perspective.
        const Place last = corners[(i + 2) % 4];
        if (turn(corners[i], corners[next], last) < 0.05 * edge * distance(corners[next], last)) {
            throw bad_corners(fmt::format("no outward corner at the {} one", kCornerNames[next]),
                              "the upper left, upper right, lower right and lower left corner of "
                              "the plate, in this order");
        }
    }
}

PlateSize assumed_size(const Outline &outline, const images::Image &photo) {
    const Lens lens = lens_of(photo.width, photo.height);
    const double uncertainty_px =
        outline.uncertainty_px > 0.0 ? outline.uncertainty_px : kHandErrorPx;
    const double ratio = width_over_height(straightened_corners(outline.lens, outline.corners),
                                           lens.centre, lens.radius_px, uncertainty_px);
    return {ratio * kAssumedHeightMm, kAssumedHeightMm};
}

/// A rectangle with its upper left corner at 0, 0.
Corners rectangle(double width, double height) {
    return {Place{0.0, 0.0}, Place{width, 0.0}, Place{width, height}, Place{0.0, height}};
}

/// The light of a place of the photo between the centres of four pixels, red, green and blue.
std::array<float, 3> light_at(const images::Image &photo, Place place) {
    const double x = std::clamp(place.x - 0.5, 0.0, photo.width - 1.001);
    const double y = std::clamp(place.y - 0.5, 0.0, photo.height - 1.001);
    const int left = static_cast<int>(x);
    const int top = static_cast<int>(y);
    const auto right_share = static_cast<float>(x - left);
    const auto lower_share = static_cast<float>(y - top);
    const std::uint8_t *upper = &photo.rgb[photo.at(left, top)];
    const std::uint8_t *lower = upper + 3 * photo.width;
    std::array<float, 3> light{};
    for (std::size_t c = 0; c < 3; ++c) {
        const auto a = static_cast<float>(upper[c]);
        const auto b = static_cast<float>(upper[c + 3]);
        const auto d = static_cast<float>(lower[c]);
        const auto e = static_cast<float>(lower[c + 3]);
        const float above = a + right_share * (b - a);
        const float below = d + right_share * (e - d);
        light[c] = above + lower_share * (below - above);
    }
    return light;
}

/// How many places of the photo are averaged for a pixel, across and down.
struct Samples {
    int across = 1, down = 1;
};

/// A pixel of the flat plate, whose upper left corner is x, y.
std::array<float, 3> averaged(const images::Image &photo, const Lens &lens, const Homography &map,
                              Samples samples, int x, int y) {
    std::array<float, 3> sum{};
    for (int j = 0; j < samples.down; ++j) {
        for (int i = 0; i < samples.across; ++i) {
            const Place flat{x + (i + 0.5) / samples.across, y + (j + 0.5) / samples.down};
            const auto light = light_at(photo, seen(lens, mapped(map, flat)));
            for (std::size_t c = 0; c < 3; ++c) {
                sum[c] += light[c];
            }
        }
    }
    return sum;
}

images::Image drawn_flat(const images::Image &photo, const Outline &outline, int width,
                         int height) {
    const Corners corners = straightened_corners(outline.lens, outline.corners);
    const Homography map = homography(rectangle(width, height), corners);
    const double across =
        std::max(distance(corners[0], corners[1]), distance(corners[3], corners[2]));
    const double down =
        std::max(distance(corners[0], corners[3]), distance(corners[1], corners[2]));
    const auto samples_of = [](double pixels, int flat_pixels) {
        return std::clamp(static_cast<int>(std::lround(pixels / flat_pixels)), 1, 16);
    };
    const Samples samples{samples_of(across, width), samples_of(down, height)};
    const float share = 1.0F / static_cast<float>(samples.across * samples.down);
    images::Image flat = images::black_image(width, height);
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            const auto sum = averaged(photo, outline.lens, map, samples, x, y);
            std::uint8_t *pixel = &flat.rgb[flat.at(x, y)];
            for (std::size_t c = 0; c < 3; ++c) {
                pixel[c] = static_cast<std::uint8_t>(share * sum[c] + 0.5F);
            }
        }
    }
    return flat;
}

} // namespace

FlatPlate flatten(const images::Image &photo, const Outline &outline,
                  std::optional<PlateSize> size) {
    require_corners(photo, outline.corners);
    const PlateSize plate = size ? *size : assumed_size(outline, photo);
    const auto &c = outline.corners;
    const double across = std::max(distance(c[0], c[1]), distance(c[3], c[2])) / plate.width_mm;
    const double down = std::max(distance(c[0], c[3]), distance(c[1], c[2])) / plate.height_mm;
    const double most = std::sqrt(kMostPixels / (plate.width_mm * plate.height_mm));
    const double scale = std::min(std::max(across, down), most);
    const int width = std::max(1, static_cast<int>(scale * plate.width_mm));
    const int height = std::max(1, static_cast<int>(scale * plate.height_mm));
    return {drawn_flat(photo, outline, width, height), plate, height / plate.height_mm,
            !size.has_value()};
}

FlatPlate flatten(const images::Image &photo, const Corners &corners,
                  std::optional<PlateSize> size) {
    return flatten(photo, Outline{corners, lens_of(photo.width, photo.height), 0.0}, size);
}

Place on_photo(const Outline &outline, PlateSize size, double x_mm, double y_mm) {
    const Homography map = homography(rectangle(size.width_mm, size.height_mm),
                                      straightened_corners(outline.lens, outline.corners));
    return seen(outline.lens, mapped(map, {x_mm, size.height_mm - y_mm}));
}

} // namespace cospot::plate_photo
