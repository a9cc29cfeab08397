#include "drawing/window_diagram.h"

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
constexpr double kDiagramWidth = 930.0;
constexpr double kHeading = 60.0; ///< height of it, where the picture stands alone
constexpr double kDiagramLeft = 64.0;
constexpr double kDiagramRight = 838.0; ///< the line of what is enough is named beyond
constexpr double kBandTop = 6.0;        ///< of the band of worst pairs above the plot
constexpr double kBand = 22.0;
constexpr double kDiagramTop = 40.0;
constexpr double kDiagramBottom = 330.0;
constexpr double kKeyTop = kDiagramBottom + 82.0;
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
    ".pairline{fill:none;stroke:#777;stroke-width:1}.window{fill:#ececec}"
    ".beyond{stroke-dasharray:7 5}.enough{stroke:#111;stroke-dasharray:2 4}"
    ".pair{fill:#f2f2f2;stroke:#777}.reading{fill:#444}.best{stroke:#111}"
    ".bestdot{fill:#fff;stroke:#111;stroke-width:2.4}</style>";

/// A stretch of the curve over which something stays the same: positions, both included.
struct Stretch {
    std::size_t first = 0;
    std::size_t last = 0;
};

template <typename Same>
std::vector<Stretch> stretches_of(const std::vector<DrawnWindowPoint> &points,
                                  const Same &is_same) {
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
struct DiagramScale {
    double low = 0.0; ///< fractions
    double high = 1.0;
    double top = 1.0; ///< resolution
    double step = 0.5;

    [[nodiscard]] double x(double fraction) const {
        return kDiagramLeft + (kDiagramRight - kDiagramLeft) * (fraction - low) / (high - low);
    }
    [[nodiscard]] double y(double resolution) const {
        return kDiagramBottom - (kDiagramBottom - kDiagramTop) * resolution / top;
    }
};

DiagramScale scale_of(const DrawnWindowDiagram &diagram) {
    double most = diagram.resolution_wanted;
    for (const DrawnWindowPoint &point : diagram.points) {
        most = std::max(most, point.resolution);
    }
    constexpr double narrowest = 1e-6; // fractions
    DiagramScale scale{diagram.points.front().fraction, diagram.points.back().fraction};
    scale.high = std::max(scale.high, scale.low + narrowest);
    scale.step = round_step(most, 6);
    scale.top = scale.step * std::ceil(most * 1.02 / scale.step);
    return scale;
}

std::string outside_window(const DrawnWindowDiagram &diagram, const DiagramScale &scale) {
    std::string svg;
    for (const Stretch &stretch : stretches_of(diagram.points, [](const auto &a, const auto &b) {
             return a.is_outside_window == b.is_outside_window;
         })) {
        if (diagram.points[stretch.first].is_outside_window) {
            const double left = scale.x(diagram.points[stretch.first].fraction);
            const double right = scale.x(diagram.points[stretch.last].fraction);
            svg += svg::rectangle(left, kDiagramTop, std::max(right - left, 1.0),
                                  kDiagramBottom - kDiagramTop, "outside");
        }
    }
    return svg;
}

std::string axes(const DrawnWindowDiagram &diagram, const DiagramScale &scale) {
    std::string svg;
    for (const double tick : axis_ticks(0.0, scale.top, scale.step)) {
        svg += svg::line(kDiagramLeft, scale.y(tick), kDiagramRight, scale.y(tick), "grid");
        svg += svg::text(kDiagramLeft - 8, scale.y(tick) + 4, "end", tick_text(tick, scale.step),
                         "tick");
    }
    const double step = round_step(scale.high - scale.low, 8);
    for (const double tick : axis_ticks(scale.low, scale.high, step)) {
        svg += svg::line(scale.x(tick), kDiagramBottom, scale.x(tick), kDiagramBottom + 6, "axis");
        svg +=
            svg::text(scale.x(tick), kDiagramBottom + 30, "middle", tick_text(tick, step), "tick");
    }
    svg += svg::line(kDiagramLeft, kDiagramTop, kDiagramLeft, kDiagramBottom, "axis");
    svg += svg::line(kDiagramLeft, kDiagramBottom, kDiagramRight, kDiagramBottom, "axis");
    svg += svg::text((kDiagramLeft + kDiagramRight) / 2, kDiagramBottom + 51, "middle",
                     "volume fraction of " + diagram.modifier, "lane");
    return svg + fmt::format("<g transform=\"translate(16 {}) rotate(-90)\">{}</g>\n",
                             svg::number((kDiagramTop + kDiagramBottom) / 2),
                             svg::text(0, 0, "middle", "resolution of the worst pair", "lane"));
}

std::string enough_line(const DrawnWindowDiagram &diagram, const DiagramScale &scale) {
    const double y = scale.y(diagram.resolution_wanted);
    return svg::line(kDiagramLeft, y, kDiagramRight, y, "enough") +
           svg::text(kDiagramRight + 6, y + 4, "start",
                     fmt::format("enough: {:g}", diagram.resolution_wanted), "lane");
}

/// The worst pairs that the picture numbers and names, in the order of the fractions.
struct NamedPairs {
    std::vector<std::string> names;
    std::size_t further = 0; ///< without room
};

/// All pairs; of too many the one at the best fraction and those that are the worst most widely.
NamedPairs named_pairs(const DrawnWindowDiagram &diagram) {
    std::vector<std::string> pairs;
    std::map<std::string, std::size_t> widths;
    for (const DrawnWindowPoint &point : diagram.points) {
        if (++widths[point.pair] == 1) {
            pairs.push_back(point.pair);
        }
    }
    if (pairs.size() <= kMostNamed) {
        return {pairs};
    }
    widths[diagram.points[diagram.best].pair] = diagram.points.size();
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

/// The area below the lowest line, and a number in each window that has room.
std::string windows(const DrawnWindowDiagram &diagram, const DiagramScale &scale) {
    constexpr double room = 24.0; // of a number
    std::string svg;
    for (std::size_t i = 0; i < diagram.windows.size(); ++i) {
        const DrawnWindow &window = diagram.windows[i];
        const double left = scale.x(diagram.points[window.first].fraction);
        const double right = scale.x(diagram.points[window.last].fraction);
        std::string points = fmt::format("{},{} ", svg::number(left), svg::number(kDiagramBottom));
        for (std::size_t j = window.first; j <= window.last; ++j) {
            points += fmt::format("{},{} ", svg::number(scale.x(diagram.points[j].fraction)),
                                  svg::number(scale.y(diagram.points[j].resolution)));
        }
        svg += fmt::format("<polygon class=\"window\" points=\"{}{},{}\"/>\n", points,
                           svg::number(right), svg::number(kDiagramBottom));
        if (right - left > room && diagram.windows.size() > 1) {
            svg += svg::text((left + right) / 2, kDiagramBottom - 8, "middle",
                             fmt::format("{}", i + 1), "label");
        }
    }
    return svg;
}

/// The lines of the pairs that are the worst somewhere, as far as they are in the picture.
std::string pair_lines(const DrawnWindowDiagram &diagram, const NamedPairs &pairs,
                       const DiagramScale &scale) {
    std::string svg;
    for (const DrawnPair &pair : diagram.pairs) {
        if (std::find(pairs.names.begin(), pairs.names.end(), pair.name) == pairs.names.end()) {
            continue;
        }
        std::string path;
        bool is_inside = false;
        for (std::size_t i = 0; i < diagram.points.size(); ++i) {
            const bool was_inside = is_inside;
            is_inside = pair.resolution[i] <= scale.top;
            if (is_inside) {
                path += fmt::format("{}{} {}", was_inside ? "L" : "M",
                                    svg::number(scale.x(diagram.points[i].fraction)),
                                    svg::number(scale.y(pair.resolution[i])));
            }
        }
        if (!path.empty()) {
            svg += "<path class=\"pairline\" d=\"" + path + "\"/>\n";
        }
    }
    return svg;
}

/// Solid over the measured fractions, dashed beyond.
std::string curve(const DrawnWindowDiagram &diagram, const DiagramScale &scale) {
    const auto is_measured = [&](const DrawnWindowPoint &point) {
        return point.fraction >= diagram.measured_from && point.fraction <= diagram.measured_to;
    };
    std::string svg;
    for (const Stretch &stretch : stretches_of(diagram.points, [&](const auto &a, const auto &b) {
             return is_measured(a) == is_measured(b);
         })) {
        std::string points;
        const std::size_t before = stretch.first > 0 ? stretch.first - 1 : 0; // joins them
        for (std::size_t i = before; i <= stretch.last; ++i) {
            points += fmt::format("{},{} ", svg::number(scale.x(diagram.points[i].fraction)),
                                  svg::number(scale.y(diagram.points[i].resolution)));
        }
        svg += fmt::format("<polyline class=\"curve{}\" points=\"{}\"/>\n",
                           is_measured(diagram.points[stretch.first]) ? "" : " beyond", points);
    }
    return svg;
}

/// A mark that stands on its base line.
std::string reading_mark(double x, double top) {
    return fmt::format("<path class=\"reading\" d=\"M{} {}l-6 11h12z\"/>", svg::number(x),
                       svg::number(top));
}

std::string reading_marks(const DrawnWindowDiagram &diagram, const DiagramScale &scale) {
    std::string svg;
    for (const double fraction : diagram.readings) {
        if (fraction >= scale.low && fraction <= scale.high) {
            svg += reading_mark(scale.x(fraction), kDiagramBottom + 2);
        }
    }
    return svg;
}

std::string best_mark(const DrawnWindowDiagram &diagram, const DiagramScale &scale) {
    const DrawnWindowPoint &best = diagram.points[diagram.best];
    const double x = scale.x(best.fraction);
    const double y = scale.y(best.resolution);
    const bool is_left_half = x < (kDiagramLeft + kDiagramRight) / 2;
    return svg::line(x, y, x, kDiagramBottom, "best") +
           fmt::format("<circle class=\"bestdot\" cx=\"{}\" cy=\"{}\" r=\"6\"/>", svg::number(x),
                       svg::number(y)) +
           svg::text(x + (is_left_half ? 12 : -12), std::max(y - 6, kDiagramTop + 14),
                     is_left_half ? "start" : "end",
                     fmt::format("best {:.3f}: resolution {:.2f}", best.fraction, best.resolution),
                     "label");
}

/// Numbers of the worst pairs above the plot; the key below names them.
std::string pair_band(const DrawnWindowDiagram &diagram, const NamedPairs &pairs,
                      const DiagramScale &scale) {
    constexpr double room = 20.0; // of a number
    constexpr double middle = kBandTop + kBand / 2 + 4;
    const auto &names = pairs.names;
    std::string svg = svg::text(kDiagramLeft - 8, middle, "end", "pair", "lane");
    for (const Stretch &stretch : stretches_of(
             diagram.points, [](const auto &a, const auto &b) { return a.pair == b.pair; })) {
        const std::string &pair = diagram.points[stretch.first].pair;
        const double left = scale.x(diagram.points[stretch.first].fraction);
        const double right = stretch.last + 1 < diagram.points.size()
                                 ? scale.x(diagram.points[stretch.last + 1].fraction)
                                 : kDiagramRight;
        svg += svg::rectangle(left, kBandTop, right - left, kBand, "pair");
        const auto named = std::find(names.begin(), names.end(), pair);
        if (named != names.end() && right - left > room) {
            svg += svg::text((left + right) / 2, middle, "middle",
                             fmt::format("{}", named - names.begin() + 1));
        }
    }
    return svg + '\n';
}

std::string key(const DrawnWindowDiagram &diagram, const NamedPairs &pairs) {
    std::string svg =
        svg::rectangle(kDiagramLeft, kKeyTop - 12, 24, 14, "outside") +
        svg::text(kDiagramLeft + 32, kKeyTop, "start",
                  fmt::format("some k outside {:g} to {:g}", diagram.k_from, diagram.k_to));
    svg += reading_mark(kDiagramLeft + 256, kKeyTop - 11) +
           svg::text(kDiagramLeft + 270, kKeyTop, "start", "measured");
    svg += fmt::format("<path class=\"curve beyond\" d=\"M{} {}h34\"/>",
                       svg::number(kDiagramLeft + 366), svg::number(kKeyTop - 5)) +
           svg::text(kDiagramLeft + 410, kKeyTop, "start", "beyond the measured fractions");
    double line = kKeyTop + 4;
    for (std::size_t i = 0; i < pairs.names.size(); ++i) {
        line += kKeyLine;
        svg += svg::text(kDiagramLeft, line, "start",
                         fmt::format("pair {}: {}", i + 1, fitted(pairs.names[i], 110)));
    }
    if (pairs.further > 0) {
        svg += svg::text(kDiagramLeft, line + kKeyLine, "start",
                         fmt::format("and {} further pairs, without number", pairs.further));
    }
    return svg;
}

double height_of(const NamedPairs &pairs) {
    const std::size_t lines = pairs.names.size() + (pairs.further > 0 ? 1 : 0);
    return kKeyTop + 14 + kKeyLine * static_cast<double>(lines);
}

/// What a picture needs that no page surrounds.
std::string own_looks(const DrawnWindowDiagram &diagram, const std::string &title) {
    return std::string(kOwnStyle) + "<defs>" + std::string(svg::kHatchPattern) + "</defs>" +
           "<rect class=\"paper\" width=\"100%\" height=\"100%\"/>" +
           svg::text(kDiagramLeft, 26, "start", title, "title") +
           svg::text(kDiagramLeft, 47, "start", diagram.plates, "lane") + '\n';
}

} // namespace

std::string window_diagram_picture(const DrawnWindowDiagram &diagram, PictureFrame frame) {
    const DiagramScale scale = scale_of(diagram);
    const NamedPairs pairs = named_pairs(diagram);
    const double heading = frame == PictureFrame::alone ? kHeading : 0.0;
    const std::string title = "Window diagram over the fraction of " + diagram.modifier;
    const DrawnWindowPoint &best = diagram.points[diagram.best];
    std::string svg = svg::begin(kDiagramWidth, heading + height_of(pairs), "windows", title,
                                 fmt::format("Best fraction {:.3f} with resolution {:.2f} of {}.",
                                             best.fraction, best.resolution, best.pair));
    svg += frame == PictureFrame::alone ? own_looks(diagram, title) : "";
    svg += fmt::format("<g transform=\"translate(0 {})\">", svg::number(heading));
    svg += windows(diagram, scale) + outside_window(diagram, scale) + axes(diagram, scale);
    svg += enough_line(diagram, scale) + pair_lines(diagram, pairs, scale);
    svg += curve(diagram, scale) + reading_marks(diagram, scale) + best_mark(diagram, scale);
    svg += pair_band(diagram, pairs, scale) + key(diagram, pairs) + "</g>";
    return svg.append(svg::kEnd);
}

} // namespace cospot
