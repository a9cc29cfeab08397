#include "resolve/window_diagram_of.h"

#include "quantities/peak_shape.h"
#include "resolve/resolve_words.h"
#include "resolve/windows.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

namespace cospot {

namespace {

using namespace resolve;

/// The pairs that are the worst somewhere, over all fractions.
std::vector<DrawnPair> drawn_pairs(const Answer &answer) {
    std::map<std::string, Pair> worst;
    for (const CurvePoint &point : answer.choice.curve) {
        worst.emplace(pair_words(answer, *point.critical), *point.critical);
    }
    std::vector<DrawnPair> pairs;
    for (const auto &[name, pair] : worst) {
        DrawnPair drawn{name, {}};
        for (const CurvePoint &point : answer.choice.curve) {
            const auto [low, high] = std::minmax(point.k[pair.first], point.k[pair.second]);
            drawn.resolution.push_back(
                quantities::resolution_from_plate_number(low, high, answer.question.plate_number));
        }
        pairs.push_back(std::move(drawn));
    }
    return pairs;
}

} // namespace

DrawnWindowDiagram window_diagram_of(const Answer &answer) {
    const Choice &choice = answer.choice;
    DrawnWindowDiagram diagram;
    diagram.modifier = answer.modifier;
    diagram.plates =
        fmt::format("{} compounds, plate number {:.0f} ({})", answer.question.compounds.size(),
                    answer.question.plate_number, answer.plate_basis);
    for (const CurvePoint &point : choice.curve) {
        diagram.points.push_back({point.fraction, point.resolution,
                                  pair_words(answer, *point.critical), point.outside_window > 0});
    }
    diagram.best = choice.best;
    diagram.pairs = drawn_pairs(answer);
    for (const Window &window : windows_of(choice.curve)) {
        diagram.windows.push_back({window.first, window.last, window.top});
    }
    diagram.measured_from = choice.measured.low;
    diagram.measured_to = choice.measured.high;
    std::set<double> readings;
    for (const MeasuredCompound &compound : answer.question.compounds) {
        for (const RetentionPoint &point : compound.points) {
            readings.insert(point.fraction);
        }
    }
    diagram.readings.assign(readings.begin(), readings.end());
    diagram.k_from = answer.question.window.from;
    diagram.k_to = answer.question.window.to;
    diagram.resolution_wanted = answer.question.resolution;
    return diagram;
}

} // namespace cospot
