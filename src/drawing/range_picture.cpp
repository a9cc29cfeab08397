#include "drawing/range_picture.h"

#include "drawing/axis_ticks.h"
#include "drawing/svg.h"

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

constexpr double kRangeWidth = 170.0;
constexpr double kRangeHeight = 32.0;
constexpr double kRangeMargin = 4.0;
constexpr double kMiddle = 10.0;
constexpr double kRoomBeside = 0.4; ///< beside an interval, in units of its width

} // namespace

RangeAxis range_axis(double low, double high) {
    const double width = std::max(high - low, 1e-6 * std::max(1.0, std::abs(high)));
    const double step = round_step(width * (1 + 2 * kRoomBeside), 6);
    return {std::max(0.0, std::floor((low - kRoomBeside * width) / step) * step),
            std::ceil((high + kRoomBeside * width) / step) * step, step};
}

std::string range_picture(const DrawnRange &range, const RangeAxis &axis,
                          const std::string &words) {
    const auto x = [&](double value) {
        const double share = std::clamp((value - axis.low) / (axis.high - axis.low), 0.0, 1.0);
        return kRangeMargin + (kRangeWidth - 2 * kRangeMargin) * share;
    };
    std::string svg = svg::begin(kRangeWidth, kRangeHeight, "range", words, words);
    svg += svg::line(x(axis.low), kMiddle, x(axis.high), kMiddle, "axis");
    for (const double end : {axis.low, axis.high}) {
        svg += svg::line(x(end), kMiddle - 4, x(end), kMiddle + 4, "axis");
        svg += svg::text(end == axis.low ? 0.0 : kRangeWidth, kRangeHeight - 4,
                         end == axis.low ? "start" : "end", tick_text(end, axis.step), "tick");
    }
    svg += svg::rectangle(x(range.low), kMiddle - 4, std::max(1.0, x(range.high) - x(range.low)), 8,
                          "interval");
    svg += svg::line(x(range.expected), kMiddle - 9, x(range.expected), kMiddle + 9, "expected");
    return svg.append(svg::kEnd);
}

} // namespace cospot
