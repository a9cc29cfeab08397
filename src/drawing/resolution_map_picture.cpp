#include "drawing/resolution_map_picture.h"

#include "drawing/axis_ticks.h"
#include "drawing/svg.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <set>

namespace cospot {

namespace {

// All lengths in px of the picture, y from below the heading.
constexpr double kResolutionMapWidth = 960.0;
constexpr double kHeading = 60.0; ///< height of it, where the picture stands alone
constexpr double kResolutionMapLeft = 64.0;
constexpr double kResolutionMapRight = 868.0; ///< the line of what is enough is named beyond
constexpr double kBandTop = 6.0;              ///< of the band of critical pairs above the plot
constexpr double kBand = 22.0;
constexpr double kResolutionMapTop = 40.0;
constexpr double kResolutionMapBottom = 330.0;
constexpr double kKeyTop = kResolutionMapBottom + 82.0;
constexpr double kKeyLine = 18.0;
constexpr std::size_t kMostNamed = 12;

/// The looks of a picture that stands alone. No variables: not every program that shows SVG knows
/// them.
constexpr std::string_view kOwnStyle =
    "<style>text{font:12px sans-serif;fill:#111}.title{font-size:18px;font-weight:bold}"
    ".tick,.lane{fill:#444}.axis{stroke:#555}.grid{stroke:#ddd}.label{font-weight:bold;"
    "paint-order:stroke;stroke:#fff;stroke-width:4px;stroke-linejoin:round}.paper{fill:#fff}"
    "#hatch line{stroke:#111;stroke-width:1.6}.outside{fill:url(#hatch);fill-opacity:.3}"
    ".curve{fill:none;stroke:#111;stroke-width:2.4;stroke-linejoin:round}"
    ".beyond{stroke-dasharray:7 5}.enough{stroke:#111;stroke-dasharray:2 4}"
    ".pair{fill:#f2f2f2;stroke:#777}.reading{fill:#444}.best{stroke:#111}"
    ".bestdot{fill:#fff;stroke:#111;stroke-width:2.4}</style>";

/// A stretch of the curve over which something stays the same: positions, both included.
struct Stretch {
    std::size_t first = 0;
    std::size_t last = 0;
};

template <typename Same>
std::vector<Stretch> stretches_of(const std::vector<DrawnMapPoint> &points, const Same &is_same) {
    std::vector<Stretch> stretches;
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (stretches.empty() || !is_same(points[i - 1], points[i])) {
            stretches.push_back({i, i});
        }
        stretches.back().last = i;
    }
    return stretches;
}

/// What the axes span.
struct MapScale {
    double low = 0.0; ///< fractions
    double high = 1.0;
    double top = 1.0; ///< resolution
    double step = 0.5;

    [[nodiscard]] double x(double fraction) const {
        return kResolutionMapLeft +
               (kResolutionMapRight - kResolutionMapLeft) * (fraction - low) / (high - low);
    }
    [[nodiscard]] double y(double resolution) const {
        return kResolutionMapBottom - (kResolutionMapBottom - kResolutionMapTop) * resolution / top;
    }
};

MapScale scale_of(const DrawnMap &map) {
    double most = map.resolution_wanted;
    for (const DrawnMapPoint &point : map.points) {
        most = std::max(most, point.resolution);
    }
    constexpr double narrowest = 1e-6; // fractions
    MapScale scale{map.points.front().fraction, map.points.back().fraction};
    scale.high = std::max(scale.high, scale.low + narrowest);
    scale.step = round_step(most, 6);
    scale.top = scale.step * std::ceil(most * 1.02 / scale.step);
    return scale;
}

std::string outside_window(const DrawnMap &map, const MapScale &scale) {
    std::string svg;
    for (const Stretch &stretch : stretches_of(map.points, [](const auto &a, const auto &b) {
             return a.is_outside_window == b.is_outside_window;
         })) {
        if (map.points[stretch.first].is_outside_window) {
            const double left = scale.x(map.points[stretch.first].fraction);
            const double right = scale.x(map.points[stretch.last].fraction);
            svg += svg::rectangle(left, kResolutionMapTop, std::max(right - left, 1.0),
                                  kResolutionMapBottom - kResolutionMapTop, "outside");
        }
    }
    return svg;
}

std::string axes(const DrawnMap &map, const MapScale &scale) {
    std::string svg;
    for (const double tick : axis_ticks(0.0, scale.top, scale.step)) {
        svg += svg::line(kResolutionMapLeft, scale.y(tick), kResolutionMapRight, scale.y(tick),
                         "grid");
        svg += svg::text(kResolutionMapLeft - 8, scale.y(tick) + 4, "end",
                         tick_text(tick, scale.step), "tick");
    }
    const double step = round_step(scale.high - scale.low, 8);
    for (const double tick : axis_ticks(scale.low, scale.high, step)) {
        svg += svg::line(scale.x(tick), kResolutionMapBottom, scale.x(tick),
                         kResolutionMapBottom + 6, "axis");
        svg += svg::text(scale.x(tick), kResolutionMapBottom + 30, "middle", tick_text(tick, step),
                         "tick");
    }
    svg += svg::line(kResolutionMapLeft, kResolutionMapTop, kResolutionMapLeft,
                     kResolutionMapBottom, "axis");
    svg += svg::line(kResolutionMapLeft, kResolutionMapBottom, kResolutionMapRight,
                     kResolutionMapBottom, "axis");
    svg += svg::text((kResolutionMapLeft + kResolutionMapRight) / 2, kResolutionMapBottom + 51,
                     "middle", "volume fraction of " + map.modifier, "lane");
    return svg + fmt::format("<g transform=\"translate(16 {}) rotate(-90)\">{}</g>\n",
                             svg::number((kResolutionMapTop + kResolutionMapBottom) / 2),
                             svg::text(0, 0, "middle", "resolution of the critical pair", "lane"));
}

std::string enough_line(const DrawnMap &map, const MapScale &scale) {
    const double y = scale.y(map.resolution_wanted);
    return svg::line(kResolutionMapLeft, y, kResolutionMapRight, y, "enough") +
           svg::text(kResolutionMapRight + 6, y + 4, "start",
                     fmt::format("enough: {:g}", map.resolution_wanted), "lane");
}

/// Solid over the measured fractions, dashed beyond.
std::string curve(const DrawnMap &map, const MapScale &scale) {
    const auto is_measured = [&](const DrawnMapPoint &point) {
        return point.fraction >= map.measured_from && point.fraction <= map.measured_to;
    };
    std::string svg;
    for (const Stretch &stretch : stretches_of(map.points, [&](const auto &a, const auto &b) {
             return is_measured(a) == is_measured(b);
         })) {
        std::string points;
        const std::size_t before = stretch.first > 0 ? stretch.first - 1 : 0; // joins them
        for (std::size_t i = before; i <= stretch.last; ++i) {
            points += fmt::format("{},{} ", svg::number(scale.x(map.points[i].fraction)),
                                  svg::number(scale.y(map.points[i].resolution)));
        }
        svg += fmt::format("<polyline class=\"curve{}\" points=\"{}\"/>\n",
                           is_measured(map.points[stretch.first]) ? "" : " beyond", points);
    }
    return svg;
}

/// A mark that stands on its base line.
std::string reading_mark(double x, double top) {
    return fmt::format("<path class=\"reading\" d=\"M{} {}l-6 11h12z\"/>", svg::number(x),
                       svg::number(top));
}

std::string reading_marks(const DrawnMap &map, const MapScale &scale) {
    std::string svg;
    for (const double fraction : map.readings) {
        if (fraction >= scale.low && fraction <= scale.high) {
            svg += reading_mark(scale.x(fraction), kResolutionMapBottom + 2);
        }
    }
    return svg;
}

std::string best_mark(const DrawnMap &map, const MapScale &scale) {
    const DrawnMapPoint &best = map.points[map.best];
    const double x = scale.x(best.fraction);
    const double y = scale.y(best.resolution);
    const bool is_left_half = x < (kResolutionMapLeft + kResolutionMapRight) / 2;
    return svg::line(x, y, x, kResolutionMapBottom, "best") +
           fmt::format("<circle class=\"bestdot\" cx=\"{}\" cy=\"{}\" r=\"6\"/>", svg::number(x),
                       svg::number(y)) +
           svg::text(x + (is_left_half ? 12 : -12), std::max(y - 6, kResolutionMapTop + 14),
                     is_left_half ? "start" : "end",
                     fmt::format("best {:.3f}: resolution {:.2f}", best.fraction, best.resolution),
                     "label");
}

/// The critical pairs that the picture numbers and names, in the order of the fractions.
struct NamedPairs {
    std::vector<std::string> names;
    std::size_t further = 0; ///< without room
};

/// All pairs; of too many the one at the best fraction and those that are critical most widely.
NamedPairs named_pairs(const DrawnMap &map) {
    std::vector<std::string> pairs;
    std::map<std::string, std::size_t> widths;
    for (const DrawnMapPoint &point : map.points) {
        if (++widths[point.pair] == 1) {
            pairs.push_back(point.pair);
        }
    }
    if (pairs.size() <= kMostNamed) {
        return {pairs};
    }
    widths[map.points[map.best].pair] = map.points.size();
    std::vector<std::string> by_width = pairs;
    std::stable_sort(by_width.begin(), by_width.end(),
                     [&](const auto &a, const auto &b) { return widths[a] > widths[b]; });
    const std::set<std::string> widest(by_width.begin(),
                                       by_width.begin() + static_cast<std::ptrdiff_t>(kMostNamed));
    NamedPairs named{{}, pairs.size() - kMostNamed};
    std::copy_if(pairs.begin(), pairs.end(), std::back_inserter(named.names),
                 [&](const std::string &pair) { return widest.contains(pair); });
    return named;
}

/// Numbers of the critical pairs above the plot; the key below names them.
std::string pair_band(const DrawnMap &map, const NamedPairs &pairs, const MapScale &scale) {
    constexpr double room = 20.0; // of a number
    constexpr double middle = kBandTop + kBand / 2 + 4;
    const auto &names = pairs.names;
    std::string svg = svg::text(kResolutionMapLeft - 8, middle, "end", "pair", "lane");
    for (const Stretch &stretch :
         stretches_of(map.points, [](const auto &a, const auto &b) { return a.pair == b.pair; })) {
        const std::string &pair = map.points[stretch.first].pair;
        const double left = scale.x(map.points[stretch.first].fraction);
        const double right = stretch.last + 1 < map.points.size()
                                 ? scale.x(map.points[stretch.last + 1].fraction)
                                 : kResolutionMapRight;
        svg += svg::rectangle(left, kBandTop, right - left, kBand, "pair");
        const auto named = std::find(names.begin(), names.end(), pair);
        if (named != names.end() && right - left > room) {
            svg += svg::text((left + right) / 2, middle, "middle",
                             fmt::format("{}", named - names.begin() + 1));
        }
    }
    return svg + '\n';
}

std::string key(const DrawnMap &map, const NamedPairs &pairs) {
    std::string svg = svg::rectangle(kResolutionMapLeft, kKeyTop - 12, 24, 14, "outside") +
                      svg::text(kResolutionMapLeft + 32, kKeyTop, "start",
                                fmt::format("some k outside {:g} to {:g}", map.k_from, map.k_to));
    svg += reading_mark(kResolutionMapLeft + 256, kKeyTop - 11) +
           svg::text(kResolutionMapLeft + 270, kKeyTop, "start", "measured");
    svg += fmt::format("<path class=\"curve beyond\" d=\"M{} {}h34\"/>",
                       svg::number(kResolutionMapLeft + 366), svg::number(kKeyTop - 5)) +
           svg::text(kResolutionMapLeft + 410, kKeyTop, "start", "beyond the measured fractions");
    double line = kKeyTop + 4;
    for (std::size_t i = 0; i < pairs.names.size(); ++i) {
        line += kKeyLine;
        svg += svg::text(kResolutionMapLeft, line, "start",
                         fmt::format("pair {}: {}", i + 1, fitted(pairs.names[i], 110)));
    }
    if (pairs.further > 0) {
        svg += svg::text(kResolutionMapLeft, line + kKeyLine, "start",
                         fmt::format("and {} further pairs, without number", pairs.further));
    }
    return svg;
}

double height_of(const NamedPairs &pairs) {
    const std::size_t lines = pairs.names.size() + (pairs.further > 0 ? 1 : 0);
    return kKeyTop + 14 + kKeyLine * static_cast<double>(lines);
}

/// What a picture needs that no page surrounds.
std::string own_looks(const DrawnMap &map, const std::string &title) {
    return std::string(kOwnStyle) + "<defs>" + std::string(svg::kHatchPattern) + "</defs>" +
           "<rect class=\"paper\" width=\"100%\" height=\"100%\"/>" +
           svg::text(kResolutionMapLeft, 26, "start", title, "title") +
           svg::text(kResolutionMapLeft, 47, "start", map.plates, "lane") + '\n';
}

} // namespace

std::string resolution_map_picture(const DrawnMap &map, MapFrame frame) {
    const MapScale scale = scale_of(map);
    const NamedPairs pairs = named_pairs(map);
    const double heading = frame == MapFrame::alone ? kHeading : 0.0;
    const std::string title = "Resolution over the fraction of " + map.modifier;
    const DrawnMapPoint &best = map.points[map.best];
    std::string svg = svg::begin(kResolutionMapWidth, heading + height_of(pairs), "map", title,
                                 fmt::format("Best fraction {:.3f} with resolution {:.2f} of {}.",
                                             best.fraction, best.resolution, best.pair));
    svg += frame == MapFrame::alone ? own_looks(map, title) : "";
    svg += fmt::format("<g transform=\"translate(0 {})\">", svg::number(heading));
    svg += outside_window(map, scale) + axes(map, scale) + enough_line(map, scale);
    svg += curve(map, scale) + reading_marks(map, scale) + best_mark(map, scale);
    svg += pair_band(map, pairs, scale) + key(map, pairs) + "</g>";
    return svg.append(svg::kEnd);
}

} // namespace cospot
