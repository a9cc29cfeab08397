#include "drawing/chromatogram_picture.h"

#include "drawing/svg.h"
#include "drawing/time_axis.h"
#include "drawing/trace_picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

/// Full width at half height of a Gaussian over its standard deviation: 2 sqrt(2 ln 2).
const double kHalfWidthInDeviations = 2.0 * std::sqrt(2.0 * std::log(2.0));

/// Above this ratio of the highest to the median peak most peaks would lie on the base line.
constexpr double kTooUneven = 12.0;

/// A peak as a Gaussian; `height` is 0 to 1 of the highest.
struct Shape {
    double deviation_min = 0.0;
    double height = 1.0;
};

enum class WidthBasis { half_width, start_end, nominal };
enum class HeightBasis { given, area_over_width, area, nominal };

struct Shapes {
    std::vector<Shape> shapes;
    WidthBasis width = WidthBasis::nominal;
    HeightBasis height = HeightBasis::nominal;
    bool is_root_scale = false; ///< heights are drawn as their square roots
};

template <typename Has> bool all(const std::vector<DrawnPeak> &peaks, const Has &has) {
    return std::all_of(peaks.begin(), peaks.end(), has);
}

TimeAxis time_axis(const std::vector<DrawnPeak> &peaks) {
    const auto [first, last] =
        std::minmax_element(peaks.begin(), peaks.end(), [](const auto &a, const auto &b) {
            return a.retention_time_min < b.retention_time_min;
        });
    const double range = last->retention_time_min - first->retention_time_min;
    const double margin = range > 0.0 ? 0.03 * range : 0.05 * first->retention_time_min;
    return {std::max(0.0, first->retention_time_min - margin), last->retention_time_min + margin};
}

WidthBasis width_basis(const std::vector<DrawnPeak> &peaks) {
    if (all(peaks, [](const DrawnPeak &peak) { return peak.width_half_min.value_or(0.0) > 0.0; })) {
        return WidthBasis::half_width;
    }
    if (all(peaks, [](const DrawnPeak &peak) {
            return peak.start_min && peak.end_min && *peak.end_min > *peak.start_min;
        })) {
        return WidthBasis::start_end;
    }
    return WidthBasis::nominal;
}

double deviation_min(const DrawnPeak &peak, WidthBasis basis, const TimeAxis &axis) {
    switch (basis) {
    case WidthBasis::half_width:
        return *peak.width_half_min / kHalfWidthInDeviations;
    case WidthBasis::start_end:
        return (*peak.end_min - *peak.start_min) / 4.0;
    case WidthBasis::nominal:
        break;
    }
    constexpr double nominal_pixels = 1.6;
    return nominal_pixels * (axis.last_min - axis.first_min) /
           (kChromatogramRight - kChromatogramLeft);
}

HeightBasis height_basis(const std::vector<DrawnPeak> &peaks, WidthBasis width) {
    if (all(peaks, [](const DrawnPeak &peak) { return peak.height.has_value(); })) {
        return HeightBasis::given;
    }
    if (all(peaks, [](const DrawnPeak &peak) { return peak.area.has_value(); })) {
        return width == WidthBasis::nominal ? HeightBasis::area : HeightBasis::area_over_width;
    }
    return HeightBasis::nominal;
}

double raw_height(const DrawnPeak &peak, HeightBasis basis, double deviation) {
    switch (basis) {
    case HeightBasis::given:
        return *peak.height;
    case HeightBasis::area_over_width:
        return *peak.area / deviation;
    case HeightBasis::area:
        return *peak.area;
    case HeightBasis::nominal:
        break;
    }
    return 1.0;
}

/// Scales the heights to the highest; by their roots where most would else not be seen.
void scale_heights(Shapes &shapes) {
    std::vector<double> heights;
    for (const Shape &shape : shapes.shapes) {
        heights.push_back(shape.height);
    }
    std::sort(heights.begin(), heights.end());
    const double highest = heights.back();
    if (highest <= 0.0) {
        shapes.height = HeightBasis::nominal;
        for (Shape &shape : shapes.shapes) {
            shape.height = 1.0;
        }
        return;
    }
    shapes.is_root_scale = highest > kTooUneven * heights[heights.size() / 2];
    for (Shape &shape : shapes.shapes) {
        shape.height /= highest;
        if (shapes.is_root_scale) {
            shape.height = std::sqrt(shape.height);
            shape.deviation_min *= std::sqrt(2.0); // the root of a Gaussian is a wider one
        }
    }
}

Shapes shapes_of(const std::vector<DrawnPeak> &peaks, const TimeAxis &axis) {
    Shapes shapes;
    shapes.width = width_basis(peaks);
    shapes.height = height_basis(peaks, shapes.width);
    for (const DrawnPeak &peak : peaks) {
        const double deviation = deviation_min(peak, shapes.width, axis);
        shapes.shapes.push_back({deviation, raw_height(peak, shapes.height, deviation)});
    }
    scale_heights(shapes);
    return shapes;
}

std::string caption_of(const Shapes &shapes) {
    std::string text;
    switch (shapes.width) {
    case WidthBasis::half_width:
        text = "Drawn from the peak table as Gaussian peaks of the widths at half height";
        break;
    case WidthBasis::start_end:
        text = "Drawn from the peak table as Gaussian peaks between start and end";
        break;
    case WidthBasis::nominal:
        text = "Drawn from the peak table as narrow peaks of one nominal width, since widths are "
               "not known of all";
        break;
    }
    switch (shapes.height) {
    case HeightBasis::given:
        text += ", as high as their heights";
        break;
    case HeightBasis::area_over_width:
        text += ", as high as area and width make them";
        break;
    case HeightBasis::area:
        text += ", as high as their areas";
        break;
    case HeightBasis::nominal:
        text += ", all equally high, since neither height nor area is known of all";
        break;
    }
    return text + (shapes.is_root_scale
                       ? "; heights on a square-root scale, so that small peaks show."
                       : ".");
}

double top_of(const Shape &shape) {
    return kChromatogramBase - (kChromatogramBase - kHighest) * shape.height;
}

/// A Gaussian out to three and a half standard deviations.
std::string peak_path(double x, const Shape &shape, double pixels_per_min) {
    constexpr int steps = 28;
    constexpr double reach = 3.5;
    const double deviation = std::max(0.6, shape.deviation_min * pixels_per_min);
    std::string path =
        fmt::format("M{} {}", svg::number(x - reach * deviation), svg::number(kChromatogramBase));
    for (int i = 0; i <= steps; ++i) {
        const double z = reach * (2.0 * i / steps - 1.0);
        const double y =
            kChromatogramBase - (kChromatogramBase - top_of(shape)) * std::exp(-z * z / 2);
        path += fmt::format("L{} {}", svg::number(x + z * deviation), svg::number(y));
    }
    return path + fmt::format("L{} {}Z", svg::number(x + reach * deviation),
                              svg::number(kChromatogramBase));
}

/// Labels above their peaks, where they cover neither each other nor another peak.
std::vector<PlacedLabel> labels_of(const std::vector<DrawnPeak> &peaks, const Shapes &shapes,
                                   const TimeAxis &axis) {
    std::vector<PointLabel> labels;
    for (std::size_t i = 0; i < peaks.size(); ++i) {
        labels.push_back({peaks[i].key, axis.x(peaks[i].retention_time_min),
                          top_of(shapes.shapes[i]), shapes.shapes[i].height});
    }
    const double pixels_per_min =
        (kChromatogramRight - kChromatogramLeft) / (axis.last_min - axis.first_min);
    return place_above(labels, 0.0, kChromatogramWidth, kLabelsTop, [&](const LabelBox &place) {
        for (std::size_t i = 0; i < peaks.size(); ++i) {
            const double x = axis.x(peaks[i].retention_time_min);
            const double nearest = std::clamp(x, place.x, place.x + place.width);
            const double z = (nearest - x) / (shapes.shapes[i].deviation_min * pixels_per_min);
            const double height =
                (kChromatogramBase - top_of(shapes.shapes[i])) * std::exp(-z * z / 2);
            if (kChromatogramBase - height < place.y + place.height) {
                return true;
            }
        }
        return false;
    });
}

/// Lines from raised labels to their peaks; under all peaks, and labels stand on a halo.
std::string leaders(const std::vector<PlacedLabel> &placed, const std::vector<DrawnPeak> &peaks,
                    const Shapes &shapes, const TimeAxis &axis) {
    std::string svg;
    for (const PlacedLabel &label : placed) {
        if (label.is_raised) {
            const double x = axis.x(peaks[label.index].retention_time_min);
            svg += svg::line(x, label.box.y + label.box.height, x,
                             top_of(shapes.shapes[label.index]) - 2, "leader");
        }
    }
    return svg + '\n';
}

} // namespace

ChromatogramPicture chromatogram_picture(const std::vector<DrawnPeak> &peaks,
                                         const std::string &title, std::optional<UpperAxis> upper,
                                         const RecordedTrace *trace) {
    if (trace != nullptr) {
        return trace_picture(*trace, peaks, title, upper ? *upper : index_axis(peaks));
    }
    const TimeAxis axis = time_axis(peaks);
    const Shapes shapes = shapes_of(peaks, axis);
    const double pixels_per_min =
        (kChromatogramRight - kChromatogramLeft) / (axis.last_min - axis.first_min);
    const std::vector<PlacedLabel> placed = labels_of(peaks, shapes, axis);
    std::vector<std::string> label_of(peaks.size());
    ChromatogramPicture picture;
    for (const PlacedLabel &label : placed) {
        label_of[label.index] = label_svg(label.box);
        picture.labels.push_back(label.box);
    }
    picture.caption = caption_of(shapes);
    if (placed.size() < peaks.size()) {
        picture.caption +=
            fmt::format(" {} of {} peaks have room for their number.", placed.size(), peaks.size());
    }
    picture.svg = svg::begin(kChromatogramWidth, kPictureHeight, "chromatogram", title,
                             fmt::format("{} peaks over retention time; the table below the "
                                         "picture says the same in words.",
                                         peaks.size()));
    picture.svg += upper_axis(upper ? *upper : index_axis(peaks), axis) + time_ticks(axis);
    picture.svg += leaders(placed, peaks, shapes, axis);
    for (std::size_t i = 0; i < peaks.size(); ++i) {
        picture.svg += svg::begin_mark(peaks[i].key, peaks[i].title, style_of(peaks[i].kind));
        picture.svg +=
            fmt::format(R"(<path d="{}"/>)", peak_path(axis.x(peaks[i].retention_time_min),
                                                       shapes.shapes[i], pixels_per_min));
        picture.svg += label_of[i];
        picture.svg.append(svg::kEndMark).append("\n");
    }
    picture.svg += svg::kEnd;
    return picture;
}

} // namespace cospot
