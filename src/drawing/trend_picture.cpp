#include "drawing/trend_picture.h"

#include "drawing/axis_ticks.h"
#include "drawing/svg.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot {

namespace {

constexpr double kTrendWidth = 250.0;
constexpr double kTrendHeight = 110.0;
constexpr double kTrendLeft = 48.0;
constexpr double kTrendRight = kTrendWidth - 14.0;
constexpr double kTrendTop = 12.0;
constexpr double kTrendBase = kTrendHeight - 24.0;

struct TrendAxis {
    double low = 0.0;
    double high = 1.0;
    double step = 0.5;

    [[nodiscard]] double y(double value) const {
        return kTrendBase - (kTrendBase - kTrendTop) * (value - low) / (high - low);
    }
};

TrendAxis axis_of(const std::vector<std::optional<double>> &values) {
    constexpr double mostly = 50.0; // from here on the differences count, not the size
    double low = 100.0;
    double high = 0.0;
    for (const auto &value : values) {
        if (value) {
            low = std::min(low, *value);
            high = std::max(high, *value);
        }
    }
    const double margin = std::max(0.02, 0.15 * (high - low));
    const TrendAxis axis{low < mostly ? 0.0 : low - margin, high + margin, 0.0};
    return {axis.low, axis.high, round_step(axis.high - axis.low, 3)};
}

double x_of(std::size_t i, std::size_t count) {
    constexpr double inset = 10.0;
    return count == 1 ? 0.5 * (kTrendLeft + kTrendRight)
                      : kTrendLeft + inset +
                            (kTrendRight - kTrendLeft - 2 * inset) * static_cast<double>(i) /
                                static_cast<double>(count - 1);
}

} // namespace

std::string trend_picture(const std::vector<std::optional<double>> &per_cent,
                          const std::string &title, const std::string &words) {
    const TrendAxis axis = axis_of(per_cent);
    std::string svg = svg::begin(kTrendWidth, kTrendHeight, "trend", title, words);
    for (const double tick : axis_ticks(axis.low, axis.high, axis.step)) {
        svg += svg::line(kTrendLeft, axis.y(tick), kTrendRight, axis.y(tick), "grid");
        svg +=
            svg::text(kTrendLeft - 6, axis.y(tick) + 4, "end", tick_text(tick, axis.step), "tick");
    }
    svg += svg::line(kTrendLeft, kTrendBase, kTrendRight, kTrendBase, "axis");
    for (std::size_t i = 0; i < per_cent.size(); ++i) {
        const double x = x_of(i, per_cent.size());
        if (!per_cent[i]) {
            continue;
        }
        if (i > 0 && per_cent[i - 1]) {
            svg += svg::line(x_of(i - 1, per_cent.size()), axis.y(*per_cent[i - 1]), x,
                             axis.y(*per_cent[i]), "joined");
        }
        svg += fmt::format("<circle class=\"dot\" cx=\"{}\" cy=\"{}\" r=\"3\"/>", svg::number(x),
                           svg::number(axis.y(*per_cent[i])));
    }
    svg += svg::text(x_of(0, per_cent.size()), kTrendBase + 16, "middle", "1", "tick");
    if (per_cent.size() > 1) {
        svg += svg::text(x_of(per_cent.size() - 1, per_cent.size()), kTrendBase + 16, "middle",
                         std::to_string(per_cent.size()), "tick");
    }
    return svg + std::string(svg::kEnd);
}

} // namespace cospot
