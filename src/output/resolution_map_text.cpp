#include "output/resolution_map_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace cospot {

namespace {

using namespace eluent_choice;

constexpr std::size_t kMapColumns = 64;
constexpr std::size_t kRows = 12;

/// The points of the curve that are drawn, one a column; the best one always has its own.
struct Map {
    std::vector<const CurvePoint *> columns;
    std::size_t best = 0;
    double top = 0.0; ///< resolution at the upper edge
};

Map map_of(const Choice &choice) {
    Map map;
    const auto &curve = choice.curve;
    const double width = choice.range.high - choice.range.low;
    const auto column_of = [&](double fraction) {
        const double place = width > 0.0 ? (fraction - choice.range.low) / width : 0.0;
        return static_cast<std::size_t>(std::lround(place * (kMapColumns - 1)));
    };
    for (std::size_t column = 0; column < kMapColumns; ++column) {
        const double fraction =
            choice.range.low + width * static_cast<double>(column) / (kMapColumns - 1);
        map.columns.push_back(&*std::min_element(
            curve.begin(), curve.end(), [&](const CurvePoint &a, const CurvePoint &b) {
                return std::abs(a.fraction - fraction) < std::abs(b.fraction - fraction);
            }));
    }
    map.best = column_of(curve[choice.best].fraction);
    map.columns[map.best] = &curve[choice.best];
    for (const CurvePoint *point : map.columns) {
        map.top = std::max(map.top, point->resolution);
    }
    return map;
}

/// The lowest of 1, 2, 5, 10, 20 ... that leaves at most `kRows` rows below the top.
double step_for(double top) {
    double step = 0.1;
    for (const double factor : {2.0, 2.5, 2.0, 2.0, 2.5, 2.0, 2.0, 2.5, 2.0, 2.0, 2.5, 2.0}) {
        if (top <= step * static_cast<double>(kRows)) {
            break;
        }
        step *= factor;
    }
    return step;
}

} // namespace

std::string resolution_map_text(const Answer &answer) {
    const Choice &choice = answer.choice;
    const Map map = map_of(choice);
    const double step = step_for(std::max(map.top, answer.question.resolution));
    const auto rows = static_cast<std::size_t>(
        std::max(1.0, std::ceil(std::max(map.top, answer.question.resolution) / step)));
    std::string text = "  resolution of the critical pair\n";
    for (std::size_t row = rows; row > 0; --row) {
        const double upper = step * static_cast<double>(row);
        const double middle = upper - step / 2.0;
        const bool is_enough_line =
            answer.question.resolution <= upper && answer.question.resolution > upper - step;
        std::string line = fmt::format("  {:>6.1f} |", upper);
        for (const CurvePoint *point : map.columns) {
            const char bar = point->outside_window == 0 ? '#' : ':';
            line += point->resolution >= middle ? bar : (is_enough_line ? '-' : ' ');
        }
        line.erase(line.find_last_not_of(' ') + 1);
        text += line + '\n';
    }
    std::string axis;
    for (const CurvePoint *point : map.columns) {
        axis += choice.measured.holds(point->fraction) ? '=' : '~';
    }
    text += "         +" + axis + '\n';
    text += std::string(10 + map.best, ' ') + "^ best\n";
    text += fmt::format("          {:<{}.3f}{:>{}.3f}\n", choice.range.low, kMapColumns / 2,
                        choice.range.high, kMapColumns - kMapColumns / 2);
    const RetentionWindow &window = answer.question.window;
    text += fmt::format("  # every k from {:g} to {:g}, : some k outside, --- resolution {:g}\n",
                        window.from, window.to, answer.question.resolution);
    return text + "  === where all compounds were measured, ~~~ beyond\n";
}

} // namespace cospot
