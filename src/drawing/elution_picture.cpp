#include "drawing/elution_picture.h"

#include "drawing/axis_ticks.h"
#include "drawing/label_layout.h"
#include "drawing/svg.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

constexpr double kElutionWidth = 1030.0;
constexpr double kElutionLeft = 72.0; ///< room for the names of the axes
constexpr double kElutionRight = kElutionWidth - 30.0;
constexpr double kFractionTop = 18.0;
constexpr double kFractionHeight = 16.0;
constexpr double kLabelTop = 44.0;
constexpr double kCurveTop = 140.0; ///< of a maximum; above it is room for names
constexpr double kElutionBase = 300.0;
constexpr double kAxisHeight = 26.0;
constexpr double kReach = 3.5;    ///< standard deviations of a curve that are drawn
constexpr double kEndReach = 3.0; ///< of the last one, in the picture
constexpr double kTickGap = 12.0; ///< between numbers of fractions
constexpr std::size_t kLongestName = 26;

struct VolumeScale {
    double end_cv = 1.0;

    [[nodiscard]] double x(double cv) const {
        return kElutionLeft + (kElutionRight - kElutionLeft) * cv / end_cv;
    }
};

double end_of(const std::vector<DrawnBand> &bands) {
    double end = 1.0;
    for (const DrawnBand &band : bands) {
        end = std::max(end, band.centre_cv + kEndReach * band.sigma_cv);
    }
    return end;
}

std::string curve(const DrawnBand &band, const VolumeScale &scale) {
    constexpr int steps = 70;
    std::string path;
    for (int i = 0; i <= steps; ++i) {
        const double sigmas = kReach * (2.0 * i / steps - 1.0);
        const double cv = std::clamp(band.centre_cv + sigmas * band.sigma_cv, 0.0, scale.end_cv);
        const double from_centre = (cv - band.centre_cv) / band.sigma_cv;
        const double height = std::exp(-0.5 * from_centre * from_centre);
        path += fmt::format("{}{} {}", i == 0 ? "M" : "L", svg::number(scale.x(cv)),
                            svg::number(kElutionBase - (kElutionBase - kCurveTop) * height));
    }
    return "<path d=\"" + path + "\"/>";
}

/// Where the names stand; a name without room is in the table only.
std::vector<PlacedLabel> names(const std::vector<DrawnBand> &bands, const VolumeScale &scale) {
    std::vector<PointLabel> labels;
    labels.reserve(bands.size());
    for (const DrawnBand &band : bands) {
        labels.push_back({fitted(band.name, kLongestName), scale.x(band.centre_cv), kCurveTop,
                          band.is_target ? 1.0 : 0.0});
    }
    return place_above(labels, kElutionLeft, kElutionRight, kLabelTop,
                       [](const LabelBox &) { return false; });
}

std::string marks(const std::vector<DrawnBand> &bands, const std::vector<PlacedLabel> &placed,
                  const VolumeScale &scale) {
    std::string svg;
    for (std::size_t i = 0; i < bands.size(); ++i) {
        svg +=
            svg::begin_mark(bands[i].key,
                            fmt::format("{}{}: {:.2f} column volumes", bands[i].name,
                                        bands[i].is_target ? ", wanted" : "", bands[i].centre_cv),
                            bands[i].is_target ? "eluted wanted" : "eluted");
        svg += curve(bands[i], scale);
        for (const PlacedLabel &label : placed) {
            if (label.index == i) {
                if (label.is_raised) {
                    svg += svg::line(scale.x(bands[i].centre_cv), kCurveTop - 2,
                                     scale.x(bands[i].centre_cv), label.box.y + kLabelHeight,
                                     "leader");
                }
                svg += svg::text(label.box.x + label.box.width / 2, label.box.y + kLabelHeight - 3,
                                 "middle", label.box.text, "label");
            }
        }
        svg.append(svg::kEndMark);
    }
    return svg;
}

/// An axis below the curves. `unit` is how much of it a column volume is.
std::string axis(double y, const char *name, double unit, const VolumeScale &scale) {
    const double end = scale.end_cv * unit;
    const double step = round_step(end, 10);
    std::string svg = svg::text(0, y + 14, "start", name, "lane");
    svg += svg::line(kElutionLeft, y, kElutionRight, y, "axis");
    for (const double tick : axis_ticks(0.0, end, step)) {
        const double x = scale.x(tick / unit);
        svg += svg::line(x, y, x, y + 4, "axis");
        svg += svg::text(x, y + 16, "middle", tick_text(tick, step), "tick");
    }
    return svg;
}

/// The fractions as a ruler above the curves.
std::string fraction_marks(const DrawnColumn &column, const VolumeScale &scale) {
    const double volume = column.volume_ml.value();
    const double fraction = column.fraction_ml.value();
    const double pixels_per_ml = (kElutionRight - kElutionLeft) / (scale.end_cv * volume);
    std::string svg = svg::text(0, kFractionTop + 12, "start", "fraction", "lane");
    svg += svg::line(kElutionLeft, kFractionTop + kFractionHeight, kElutionRight,
                     kFractionTop + kFractionHeight, "axis");
    const auto line = [&](double ml, double top, const char *style) {
        return ml > scale.end_cv * volume
                   ? std::string()
                   : svg::line(scale.x(ml / volume), top, scale.x(ml / volume),
                               kFractionTop + kFractionHeight, style);
    };
    constexpr double narrowest = 3.0; // pixels
    if (fraction * pixels_per_ml >= narrowest) {
        const double last = scale.end_cv * volume - column.forerun_ml;
        for (int i = 0; i * fraction <= last; ++i) {
            svg += line(column.forerun_ml + i * fraction, kFractionTop + 10, "axis");
        }
    }
    for (const FractionTick &tick : fraction_ticks(column, scale.end_cv * volume, pixels_per_ml)) {
        svg += svg::text(scale.x((tick.end_ml - fraction / 2) / volume), kFractionTop + 6, "middle",
                         std::to_string(tick.number), "tick");
    }
    return svg;
}

} // namespace

std::vector<FractionTick> fraction_ticks(const DrawnColumn &column, double last_ml,
                                         double pixels_per_ml) {
    const double size = column.fraction_ml.value();
    const double count = std::floor((last_ml - column.forerun_ml) / size);
    std::vector<FractionTick> ticks;
    constexpr double most = 1e6; // no such column is run
    if (count < 1.0 || count > most) {
        return ticks;
    }
    const double room = label_width(fmt::format("{:.0f}", count)) + kTickGap;
    const int step = std::max(1, static_cast<int>(round_step(room / (size * pixels_per_ml), 1.0)));
    const auto add = [&](int number) {
        ticks.push_back({number, column.forerun_ml + number * size});
    };
    add(1);
    for (int number = step; number <= static_cast<int>(count); number += step) {
        if ((number - 1) * size * pixels_per_ml >= room) {
            add(number);
        }
    }
    return ticks;
}

std::string elution_picture(const std::vector<DrawnBand> &bands, const DrawnColumn &column,
                            const std::string &title) {
    const VolumeScale scale{end_of(bands)};
    std::string words;
    for (const DrawnBand &band : bands) {
        words += fmt::format("{}{} at {:.2f} column volumes", words.empty() ? "" : ", ", band.name,
                             band.centre_cv);
    }
    const bool has_volume = column.volume_ml.has_value();
    const std::vector<PlacedLabel> placed = names(bands, scale);
    double unused = kCurveTop; // height that names leave free
    for (const PlacedLabel &label : placed) {
        unused = std::min(unused, label.box.y - kLabelTop);
    }
    const double height = kElutionBase - unused + (has_volume ? 2 : 1) * kAxisHeight + 2.0;
    std::string svg = svg::begin(kElutionWidth, height, "elution", title, words);
    svg += has_volume && column.fraction_ml ? fraction_marks(column, scale) : "";
    svg += fmt::format("<g transform=\"translate(0 {})\">", svg::number(-unused));
    svg += marks(bands, placed, scale) + axis(kElutionBase, "CV", 1.0, scale);
    svg += has_volume ? axis(kElutionBase + kAxisHeight, "mL", *column.volume_ml, scale) : "";
    svg += "</g>";
    return svg.append(svg::kEnd);
}

} // namespace cospot
