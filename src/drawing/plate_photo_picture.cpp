#include "drawing/plate_photo_picture.h"

#include "drawing/svg.h"

#include <fmt/format.h>
#include <sodium.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

constexpr double kWidestPhoto = 560.0; ///< of the plate on the page, in pixels
constexpr double kHighestPhoto = 620.0;
constexpr double kLeftOfPlate = 40.0;
constexpr double kBelowPlate = 38.0;
constexpr double kAbovePlate = 22.0;
constexpr double kRightOfPlate = 64.0;

std::string base64(std::string_view bytes) {
    const std::size_t size =
        sodium_base64_encoded_len(bytes.size(), sodium_base64_VARIANT_ORIGINAL);
    std::string text(size, '\0');
    // NOLINTNEXTLINE(cppcoreguidelines-pro-type-reinterpret-cast): the bytes of the text
    sodium_bin2base64(text.data(), size, reinterpret_cast<const unsigned char *>(bytes.data()),
                      bytes.size(), sodium_base64_VARIANT_ORIGINAL);
    text.pop_back(); // the zero behind it
    return text;
}

std::string photo(std::string_view jpeg, double x, double y, double width, double height) {
    return fmt::format(R"(<image x="{}" y="{}" width="{}" height="{}" preserveAspectRatio="none" )"
                       R"(href="data:image/jpeg;base64,{}"/>)"
                       "\n",
                       svg::number(x), svg::number(y), svg::number(width), svg::number(height),
                       base64(jpeg));
}

/// Where a plate lies in the picture.
struct Placement {
    double pixels_per_mm = 1.0;
    double height_mm = 0.0;

    [[nodiscard]] double x(double mm) const { return kLeftOfPlate + mm * pixels_per_mm; }
    [[nodiscard]] double y(double mm) const {
        return kAbovePlate + (height_mm - mm) * pixels_per_mm;
    }
};

/// Drawn twice, light and dark, so that it is seen on every ground.
std::string twice(const std::string &shape) {
    return fmt::format(R"(<path class="halo" d="{0}"/><path class="ink" d="{0}"/>)", shape);
}

std::string named_line(const Placement &at, const std::vector<double> &heights_mm, double width_mm,
                       const char *name) {
    if (heights_mm.empty()) {
        return "";
    }
    const double step_mm = width_mm / static_cast<double>(heights_mm.size() - 1);
    std::string shape;
    for (std::size_t i = 0; i < heights_mm.size(); ++i) {
        shape += fmt::format("{}{} {}", i == 0 ? "M" : "L",
                             svg::number(at.x(static_cast<double>(i) * step_mm)),
                             svg::number(at.y(heights_mm[i])));
    }
    return fmt::format(R"(<g class="{}">{}</g>)", name, twice(shape)) +
           svg::text(at.x(width_mm) + 5, at.y(heights_mm.back()) + 4, "start", name, "tick") + '\n';
}

std::string ring(const Placement &at, const RingedSpot &spot) {
    constexpr double gap = 3.0; ///< pixels between a spot and its ring
    const double rx = spot.width_mm / 2 * at.pixels_per_mm + gap;
    const double ry = std::max(spot.high_mm - spot.low_mm, 0.5) / 2 * at.pixels_per_mm + gap;
    const double x = at.x(spot.x_mm);
    const double y = at.y((spot.low_mm + spot.high_mm) / 2);
    const std::string ellipse =
        fmt::format("M{} {}a{rx} {ry} 0 1 0 {d} 0a{rx} {ry} 0 1 0 -{d} 0z", svg::number(x - rx),
                    svg::number(y), fmt::arg("rx", svg::number(rx)),
                    fmt::arg("ry", svg::number(ry)), fmt::arg("d", svg::number(2 * rx)));
    const double middle = at.y(spot.y_mm);
    const std::string tick = fmt::format("M{} {}h8", svg::number(x - 4), svg::number(middle));
    return svg::begin_mark(spot.key, spot.title, "ringed") + twice(ellipse) + twice(tick) +
           svg::text(x + rx + 3, y + 4, "start", spot.key, "label") + std::string(svg::kEndMark) +
           '\n';
}

std::string scales(const Placement &at, const PlateOverlay &overlay) {
    const double step_mm = overlay.height_mm > 120 ? 20 : 10;
    std::string svg;
    for (int i = 0; i * step_mm <= overlay.height_mm; ++i) {
        const double y = at.y(i * step_mm);
        svg += svg::line(kLeftOfPlate - 5, y, kLeftOfPlate, y, "axis");
        svg += svg::text(kLeftOfPlate - 9, y + 4, "end", fmt::format("{:g}", i * step_mm), "tick");
    }
    svg += svg::text(2, kAbovePlate - 9, "start", "mm", "tick");
    const double bottom = at.y(0.0);
    for (std::size_t lane = 0; lane < overlay.lanes_mm.size(); ++lane) {
        const double x = at.x(overlay.lanes_mm[lane]);
        svg += svg::line(x, bottom, x, bottom + 5, "axis");
        svg += svg::text(x, bottom + 18, "middle", fmt::to_string(lane + 1), "lane");
        svg += svg::text(x, bottom + 32, "middle", fmt::format("{:.0f}", overlay.lanes_mm[lane]),
                         "tick");
    }
    if (!overlay.lanes_mm.empty()) {
        svg += svg::text(at.x(overlay.width_mm) + 5, bottom + 18, "start", "lane", "tick");
        svg += svg::text(at.x(overlay.width_mm) + 5, bottom + 32, "start", "mm", "tick");
    }
    return svg + '\n';
}

} // namespace

std::string plate_photo_picture(std::string_view jpeg, const PlateOverlay &overlay,
                                const std::string &title) {
    const Placement at{std::min(kWidestPhoto / overlay.width_mm, kHighestPhoto / overlay.height_mm),
                       overlay.height_mm};
    const double width = overlay.width_mm * at.pixels_per_mm;
    const double height = overlay.height_mm * at.pixels_per_mm;
    std::string svg =
        svg::begin(kLeftOfPlate + width + kRightOfPlate, kAbovePlate + height + kBelowPlate,
                   "plate-photo", title,
                   fmt::format("The straightened plate with {} spots ringed in {} lanes.",
                               overlay.spots.size(), overlay.lanes_mm.size()));
    svg += photo(jpeg, kLeftOfPlate, kAbovePlate, width, height);
    svg += scales(at, overlay);
    svg += named_line(at, overlay.start_mm, overlay.width_mm, "start");
    svg += named_line(at, overlay.front_mm, overlay.width_mm, "front");
    for (const RingedSpot &spot : overlay.spots) {
        svg += ring(at, spot);
    }
    return svg + std::string(svg::kEnd);
}

std::string outlined_photo(std::string_view jpeg, double width, double height,
                           const std::vector<PhotoPlace> &corners, const std::string &title) {
    constexpr double longest = 420.0;
    const double scale = longest / std::max(width, height);
    std::string svg = svg::begin(width * scale, height * scale, "plate-photo", title,
                                 "The photo with the outline of the plate.");
    svg += photo(jpeg, 0.0, 0.0, width * scale, height * scale);
    std::string outline;
    for (const PhotoPlace &corner : corners) {
        outline += fmt::format("{}{} {}", outline.empty() ? "M" : "L",
                               svg::number(corner.x * scale), svg::number(corner.y * scale));
    }
    return svg + twice(outline + "z") + std::string(svg::kEnd);
}

} // namespace cospot
