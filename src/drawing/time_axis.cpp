#include "drawing/time_axis.h"

#include "drawing/axis_ticks.h"
#include "drawing/index_axis.h"
#include "drawing/svg.h"

#include <fmt/format.h>

#include <utility>

namespace cospot {

std::string time_ticks(const TimeAxis &axis) {
    const double step = round_step(axis.last_min - axis.first_min, 12);
    std::string svg = svg::line(kChromatogramLeft, kChromatogramBase, kChromatogramRight,
                                kChromatogramBase, "axis");
    for (const double tick : axis_ticks(axis.first_min, axis.last_min, step)) {
        const double x = axis.x(tick);
        svg += svg::line(x, kChromatogramBase, x, kChromatogramBase + 5, "axis");
        svg += svg::text(x, kChromatogramBase + 19, "middle", tick_text(tick, step), "tick");
    }
    return svg +
           svg::text(kChromatogramRight, kChromatogramBase + 40, "end", "retention time, min",
                     "tick") +
           '\n';
}

UpperAxis index_axis(const std::vector<DrawnPeak> &peaks) {
    std::vector<IndexedPeak> indexed;
    for (const DrawnPeak &peak : peaks) {
        if (peak.index) {
            indexed.push_back({peak.retention_time_min, *peak.index});
        }
    }
    return {"retention index",
            index_ticks(
                std::move(indexed),
                static_cast<std::size_t>((kChromatogramRight - kChromatogramLeft) / kTickRoom))};
}

std::string upper_axis(const UpperAxis &upper, const TimeAxis &axis) {
    const std::vector<TimeTick> &ticks = upper.ticks;
    if (ticks.empty()) {
        return {};
    }
    std::string svg;
    double last_x = -kTickRoom;
    for (const TimeTick &tick : ticks) {
        const double x = axis.x(tick.retention_time_min);
        svg += svg::line(x, kIndexAxis - 5, x, kIndexAxis, "axis");
        if (x - last_x >= kTickRoom) { // they may crowd at the early end
            svg += svg::text(x, kIndexAxis - 9, "middle", fmt::format("{:g}", tick.value), "tick");
            last_x = x;
        }
    }
    return svg::line(axis.x(ticks.front().retention_time_min), kIndexAxis,
                     axis.x(ticks.back().retention_time_min), kIndexAxis, "axis") +
           svg + svg::text(kChromatogramRight, 12, "end", upper.title, "tick") + '\n';
}

const char *style_of(PeakKind kind) {
    switch (kind) {
    case PeakKind::listed:
        return "peak listed";
    case PeakKind::unlisted:
        return "peak unlisted";
    case PeakKind::not_compared:
        break;
    }
    return "peak";
}

std::string label_svg(const LabelBox &box) {
    return svg::text(box.x + box.width / 2, box.y + box.height - 3, "middle", box.text, "label");
}

} // namespace cospot
