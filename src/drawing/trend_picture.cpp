#include "drawing/trend_picture.h"

#include "drawing/axis_ticks.h"
#include "drawing/label_layout.h"
#include "drawing/svg.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot {

namespace {

constexpr double kTrendWidth = 330.0;
constexpr double kTrendRight = kTrendWidth - 16.0;
constexpr double kTrendTop = 6.0;
constexpr double kTrendLine = 17.0; ///< of one sample
constexpr double kTrendFoot = 24.0; ///< below the axis
constexpr std::size_t kMaxNameWidth = 22;

struct TrendAxis {
    double left = 0.0; ///< pixels
    double low = 0.0;  ///< per cent
    double high = 1.0;
    double step = 0.5;

    [[nodiscard]] double x(double value) const {
        return left + (kTrendRight - left) * (value - low) / (high - low);
    }
};

/// The name with its end, where names of batches differ.
std::string trend_name(const std::string &name) {
    if (display_width(name) <= kMaxNameWidth) {
        return name;
    }
    std::size_t begin = 0;
    while (display_width(name.substr(begin)) >= kMaxNameWidth) {
        begin += first_columns(std::string_view(name).substr(begin), 1).size();
    }
    return "…" + name.substr(begin);
}

TrendAxis trend_axis(const DrawnTrend &trend) {
    constexpr double mostly = 50.0; // from here on the differences count, not the size
    double low = 100.0;
    double high = 0.0;
    double names = 0.0;
    const auto include = [&](double value) {
        low = std::min(low, value);
        high = std::max(high, value);
    };
    for (const TrendPoint &point : trend.points) {
        names = std::max(names, label_width(trend_name(point.sample)));
        if (point.per_cent) {
            include(*point.per_cent);
        }
    }
    if (trend.limit) {
        include(*trend.limit);
    }
    const double margin = std::max(0.02, 0.1 * (high - low));
    TrendAxis axis{names + 14.0, low < mostly ? 0.0 : low - margin, high + margin, 0.0};
    axis.step = round_step(axis.high - axis.low, 3);
    return axis;
}

double trend_y(std::size_t i) {
    return kTrendTop + kTrendLine * (static_cast<double>(i) + 0.5);
}

} // namespace

std::string trend_picture(const DrawnTrend &trend) {
    const TrendAxis axis = trend_axis(trend);
    const std::vector<TrendPoint> &points = trend.points;
    const double base = kTrendTop + kTrendLine * static_cast<double>(points.size());
    std::string svg = svg::begin(kTrendWidth, base + kTrendFoot, "trend", trend.title, trend.words);
    for (const double tick : axis_ticks(axis.low, axis.high, axis.step)) {
        svg += svg::line(axis.x(tick), kTrendTop, axis.x(tick), base, "grid");
        svg += svg::text(axis.x(tick), base + 15, "middle", tick_text(tick, axis.step), "tick");
    }
    svg += svg::line(axis.left, base, kTrendRight, base, "axis");
    if (trend.limit) {
        svg += svg::line(axis.x(*trend.limit), kTrendTop, axis.x(*trend.limit), base, "limit");
    }
    for (std::size_t i = 0; i < points.size(); ++i) {
        svg +=
            svg::text(axis.left - 8, trend_y(i) + 4, "end", trend_name(points[i].sample), "tick");
        if (points[i].per_cent && i > 0 && points[i - 1].per_cent) {
            svg += svg::line(axis.x(*points[i - 1].per_cent), trend_y(i - 1),
                             axis.x(*points[i].per_cent), trend_y(i), "joined");
        }
    }
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (points[i].per_cent) {
            svg += fmt::format(R"(<circle class="{}" cx="{}" cy="{}" r="{}"/>)",
                               points[i].breaks_limit ? "dot broken" : "dot",
                               svg::number(axis.x(*points[i].per_cent)), svg::number(trend_y(i)),
                               points[i].breaks_limit ? 4.5 : 3.0);
        }
    }
    return svg + std::string(svg::kEnd);
}

} // namespace cospot
