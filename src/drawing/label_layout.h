#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

namespace cospot {

/// The room that a label takes in a picture, in pixels; x and y are its top left corner.
struct LabelBox {
    std::string text;
    double x = 0.0;
    double y = 0.0;
    double width = 0.0;
    double height = 0.0;
};

/// Size of a label in the pictures' font, rather too wide than too narrow, pixels.
inline constexpr double kLabelHeight = 14.0;
[[nodiscard]] double label_width(const std::string &text);

[[nodiscard]] bool overlap(const LabelBox &a, const LabelBox &b);

/// Places on a line, as near to the wanted ones as can be (least squares) while neighbours are at
/// least `spacing` apart and all lie from `low` to `high`; in the order of `wanted`, which need not
/// be sorted. Where the line is too short for all of them, they start at `low` and go beyond
/// `high`.
[[nodiscard]] std::vector<double> spread_apart(const std::vector<double> &wanted, double spacing,
                                               double low, double high);

/// A label that is to stand above a point.
struct PointLabel {
    std::string text;
    double x = 0.0; ///< of the point
    double y = 0.0;
    double importance = 0.0;
};

/// A label that found room: above its point, at once or some levels higher.
struct PlacedLabel {
    std::size_t index = 0; ///< in the list of labels
    LabelBox box;
    bool is_raised = false; ///< so far above its point that a line should lead to it
};

/// Whether something other than labels stands in a place.
using IsBlocked = std::function<bool(const LabelBox &place)>;

/// Gives labels room without overlaps, the most important first, within the picture from x = `left`
/// to `right` and below y = `top`, where nothing blocks the place. Those without room are left out.
[[nodiscard]] std::vector<PlacedLabel> place_above(const std::vector<PointLabel> &labels,
                                                   double left, double right, double top,
                                                   const IsBlocked &is_blocked);

} // namespace cospot
