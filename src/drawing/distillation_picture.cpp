#include "drawing/distillation_picture.h"

#include "drawing/axis_ticks.h"
#include "drawing/svg.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

constexpr double kDistillationWidth = 560.0;
constexpr double kDistillationHeight = 420.0;
constexpr double kDistillationLeft = 66.0;
constexpr double kDistillationRight = kDistillationWidth - 20.0;
constexpr double kDistillationTop = 14.0;
constexpr double kDistillationBase = kDistillationHeight - 50.0;
constexpr double kAll = 100.0; // per cent

/// The temperatures that the picture shows, from round number to round number.
struct Scale {
    double low = 0.0;
    double high = 100.0;
    double step = 10.0;

    [[nodiscard]] double y(double celsius) const {
        return kDistillationBase -
               (kDistillationBase - kDistillationTop) * (celsius - low) / (high - low);
    }
};

double x(double per_cent) {
    return kDistillationLeft + (kDistillationRight - kDistillationLeft) * per_cent / kAll;
}

Scale scale_of(const std::vector<DrawnRecovery> &recovered) {
    constexpr double narrowest = 1.0; // degrees C
    const double low = recovered.front().celsius;
    const double high = std::max(recovered.back().celsius, low + narrowest);
    const double step = round_step(high - low, 8);
    return {step * std::floor(low / step), step * std::ceil(high / step), step};
}

std::string axes(const Scale &scale) {
    std::string svg;
    for (const double tick : axis_ticks(scale.low, scale.high, scale.step)) {
        svg +=
            svg::line(kDistillationLeft, scale.y(tick), kDistillationRight, scale.y(tick), "grid");
        svg += svg::text(kDistillationLeft - 8, scale.y(tick) + 4, "end",
                         tick_text(tick, scale.step), "tick");
    }
    constexpr double step = 10.0; // per cent
    for (const double tick : axis_ticks(0.0, kAll, step)) {
        svg += svg::line(x(tick), kDistillationBase, x(tick), kDistillationBase + 5, "axis");
        svg += svg::text(x(tick), kDistillationBase + 20, "middle", tick_text(tick, step), "tick");
    }
    svg += svg::line(kDistillationLeft, kDistillationTop, kDistillationLeft, kDistillationBase,
                     "axis");
    svg += svg::line(kDistillationLeft, kDistillationBase, kDistillationRight, kDistillationBase,
                     "axis");
    svg +=
        svg::text(kDistillationRight, kDistillationBase + 41, "end", "area recovered, %", "lane");
    return svg + fmt::format("<g transform=\"translate(16 {}) rotate(-90)\">{}</g>\n",
                             svg::number((kDistillationTop + kDistillationBase) / 2),
                             svg::text(0, 0, "middle", "boiling point, °C", "lane"));
}

std::string off_scale(double from_per_cent, double to_per_cent) {
    return to_per_cent > from_per_cent
               ? svg::rectangle(x(from_per_cent), kDistillationTop,
                                x(to_per_cent) - x(from_per_cent),
                                kDistillationBase - kDistillationTop, "outside")
               : "";
}

} // namespace

std::string distillation_picture(const std::vector<DrawnRecovery> &recovered,
                                 double before_per_cent, double behind_per_cent,
                                 const std::string &title) {
    const Scale scale = scale_of(recovered);
    std::string svg =
        svg::begin(kDistillationWidth, kDistillationHeight, "distillation", title,
                   fmt::format("From {:.0f} °C with {:g} % recovered to {:.0f} °C with {:g} %.",
                               recovered.front().celsius, recovered.front().per_cent,
                               recovered.back().celsius, recovered.back().per_cent));
    svg += off_scale(0.0, before_per_cent) + off_scale(kAll - behind_per_cent, kAll) + axes(scale);
    std::string points;
    std::string marks;
    for (const DrawnRecovery &one : recovered) {
        const std::string at_x = svg::number(x(one.per_cent));
        const std::string at_y = svg::number(scale.y(one.celsius));
        points += fmt::format("{},{} ", at_x, at_y);
        marks += svg::begin_mark(
            one.key, fmt::format("{:g} %: {:.1f} °C", one.per_cent, one.celsius), "value");
        marks += fmt::format("<ellipse cx=\"{}\" cy=\"{}\" rx=\"3.5\" ry=\"3.5\"/>", at_x, at_y);
        marks += svg::kEndMark;
    }
    svg += "<polyline class=\"joined\" points=\"" + points + "\"/>" + marks;
    return svg.append(svg::kEnd);
}

} // namespace cospot
