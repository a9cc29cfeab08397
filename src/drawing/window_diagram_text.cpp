#include "drawing/window_diagram_text.h"

#include "drawing/axis_ticks.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

constexpr std::size_t kDiagramColumns = 64;
constexpr double kDiagramRows = 12.0; ///< at most

/// The points that are drawn, one a column.
struct DiagramColumns {
    std::vector<const DrawnWindowPoint *> points;
    std::string below; ///< numbers of the windows at their tops, * at the best fraction
};

std::size_t column_of(const DrawnWindowDiagram &diagram, std::size_t position) {
    const double low = diagram.points.front().fraction;
    const double width = diagram.points.back().fraction - low;
    const double place = width > 0.0 ? (diagram.points[position].fraction - low) / width : 0.0;
    return static_cast<std::size_t>(std::lround(place * (kDiagramColumns - 1)));
}

DiagramColumns columns_of(const DrawnWindowDiagram &diagram) {
    DiagramColumns columns{{}, std::string(kDiagramColumns, ' ')};
    const std::size_t last = diagram.points.size() - 1;
    for (std::size_t column = 0; column < kDiagramColumns; ++column) {
        columns.points.push_back(&diagram.points[column * last / (kDiagramColumns - 1)]);
    }
    constexpr std::size_t digits = 9;
    for (std::size_t i = 0; i < std::min(diagram.windows.size(), digits); ++i) {
        const std::size_t top = diagram.windows[i].top;
        const std::size_t column = column_of(diagram, top);
        columns.points[column] = &diagram.points[top];
        columns.below[column] = static_cast<char>('1' + i);
    }
    const std::size_t best = column_of(diagram, diagram.best);
    columns.points[best] = &diagram.points[diagram.best];
    columns.below[best] = '*';
    return columns;
}

} // namespace

std::string window_diagram_text(const DrawnWindowDiagram &diagram) {
    const DiagramColumns columns = columns_of(diagram);
    double top = diagram.resolution_wanted;
    for (const DrawnWindowPoint *point : columns.points) {
        top = std::max(top, point->resolution);
    }
    const double step = round_step(top, kDiagramRows);
    std::string text = "  resolution of the worst pair\n";
    for (double upper = step * std::ceil(top / step); upper > step / 2.0; upper -= step) {
        const bool is_enough_row =
            diagram.resolution_wanted <= upper && diagram.resolution_wanted > upper - step;
        std::string line = fmt::format("  {:>6} |", tick_text(upper, step));
        for (const DrawnWindowPoint *point : columns.points) {
            line += point->resolution >= upper - step / 2.0 ? (point->is_outside_window ? "░" : "█")
                                                            : (is_enough_row ? "-" : " ");
        }
        text += without_end_blanks(line) + '\n';
    }
    std::string axis;
    for (const DrawnWindowPoint *point : columns.points) {
        const bool is_measured =
            point->fraction >= diagram.measured_from && point->fraction <= diagram.measured_to;
        axis += is_measured ? '=' : '~';
    }
    text += "         +" + axis + '\n';
    text += without_end_blanks(std::string(10, ' ') + columns.below) + '\n';
    text += fmt::format("          {:<{}.3f}{:>{}.3f}\n", diagram.points.front().fraction,
                        kDiagramColumns / 2, diagram.points.back().fraction,
                        kDiagramColumns - kDiagramColumns / 2);
    text += fmt::format("  * best fraction, 1 2 .. tops of the windows, --- resolution {:g}\n",
                        diagram.resolution_wanted);
    return text + fmt::format("  █ every k from {:g} to {:g}, ░ some k outside, === measured, ~~~ "
                              "beyond\n",
                              diagram.k_from, diagram.k_to);
}

} // namespace cospot
