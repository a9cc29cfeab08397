#include "plate_photo/spot_shape.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace cospot::plate_photo {

namespace {

constexpr double kTopShare = 0.8;   ///< of the height: the densest part
constexpr double kFootShare = 0.1;  ///< where a spot ends
constexpr double kCoreShare = 0.35; ///< of the width, over which it is read along the lane
constexpr double kLeastCoreMm = 0.75;
constexpr double kSearchMm = 0.75; ///< how far from the peak's apex the top may lie
constexpr double kLeastWidthMm = 0.9;
constexpr double kMostFlatness = 5.0; ///< width across over width along
constexpr double kMostWidth = 1.4;    ///< of the lane
constexpr double kEdgeMarginMm = 0.75;
constexpr double kTailing = 1.6; ///< one side over the other

/// A line of values at even steps.
struct Cut {
    double first_mm = 0.0;
    double step_mm = 1.0;
    std::vector<double> values;

    [[nodiscard]] double mm_of(std::size_t i) const {
        return first_mm + step_mm * static_cast<double>(i);
    }
};

Cut cut_across(const Field &signal, double left_mm, double right_mm, double y_mm, double reach_mm) {
    const int left = signal.column_at(left_mm);
    Cut cut{signal.mm_of(left), 1.0 / signal.cells_per_mm, {}};
    const int low = signal.row_at(y_mm - reach_mm);
    const int high = signal.row_at(y_mm + reach_mm);
    for (int x = left; x <= signal.column_at(right_mm); ++x) {
        double sum = 0.0;
        for (int y = low; y <= high; ++y) {
            sum += signal.at(x, y);
        }
        cut.values.push_back(sum / (high - low + 1));
    }
    return cut;
}

Cut cut_along(const Field &signal, double x_mm, double reach_mm, double low_mm, double high_mm) {
    const int low = signal.row_at(low_mm);
    Cut cut{signal.mm_of(low), 1.0 / signal.cells_per_mm, {}};
    const int left = signal.column_at(x_mm - reach_mm);
    const int right = signal.column_at(x_mm + reach_mm);
    for (int y = low; y <= signal.row_at(high_mm); ++y) {
        double sum = 0.0;
        for (int x = left; x <= right; ++x) {
            sum += signal.at(x, y);
        }
        cut.values.push_back(sum / (right - left + 1));
    }
    return cut;
}

std::size_t highest_between(const Cut &cut, double low_mm, double high_mm) {
    std::size_t best = cut.values.size();
    for (std::size_t i = 0; i < cut.values.size(); ++i) {
        const double mm = cut.mm_of(i);
        if (mm >= low_mm && mm <= high_mm &&
            (best == cut.values.size() || cut.values[i] > cut.values[best])) {
            best = i;
        }
    }
    return std::min(best, cut.values.size() - 1);
}

/// How far from `top` the values stay above `level`, between points; as far as the cut goes.
double reach_above(const Cut &cut, std::size_t top, int step, double level) {
    const auto last = static_cast<std::ptrdiff_t>(cut.values.size()) - 1;
    auto i = static_cast<std::ptrdiff_t>(top);
    while (i + step >= 0 && i + step <= last &&
           cut.values[static_cast<std::size_t>(i + step)] > level) {
        i += step;
    }
    double reach = std::abs(static_cast<double>(i) - static_cast<double>(top));
    if (i + step >= 0 && i + step <= last) {
        const double here = cut.values[static_cast<std::size_t>(i)];
        const double next = cut.values[static_cast<std::size_t>(i + step)];
        reach += here > next ? (here - level) / (here - next) : 0.0;
    }
    return reach * cut.step_mm;
}

/// The lane's own level under a spot: a line between the lowest values on both of its sides.
double level_under(const Cut &cut, std::size_t top) {
    const auto middle = cut.values.begin() + static_cast<std::ptrdiff_t>(top);
    const double below = *std::min_element(cut.values.begin(), middle + 1);
    const double above = *std::min_element(middle, cut.values.end());
    return std::min(below, above);
}

/// Centre and length of what lies above a share of the height.
void measure_top(const Cut &cut, std::size_t top, double level, SpotShape &shape) {
    const double limit = level + kTopShare * (cut.values[top] - level);
    const double below = reach_above(cut, top, -1, limit);
    const double above = reach_above(cut, top, 1, limit);
    shape.y_mm = cut.mm_of(top) + 0.5 * (above - below);
    shape.top_length = above + below;
}

bool looks_like_spot(const SpotShape &shape, const LanePlace &lane, double plate_width_mm) {
    const double lane_width = lane.right_mm - lane.left_mm;
    return shape.x_mm > kEdgeMarginMm && shape.x_mm < plate_width_mm - kEdgeMarginMm &&
           shape.width_mm >= kLeastWidthMm && shape.width_mm <= kMostWidth * lane_width &&
           shape.half_width >= kLeastWidthMm && shape.width_mm <= kMostFlatness * shape.half_width;
}

} // namespace

std::optional<SpotShape> spot_shape(const Field &signal, const LanePlace &lane, double y_mm,
                                    double low_mm, double high_mm) {
    const Cut across = cut_across(signal, lane.left_mm, lane.right_mm, y_mm, 0.4);
    const std::size_t middle = highest_between(across, lane.left_mm, lane.right_mm);
    if (across.values.size() < 4 || middle == 0 || middle + 1 == across.values.size()) {
        return std::nullopt;
    }
    SpotShape shape;
    const double half = 0.5 * across.values[middle];
    const double left = reach_above(across, middle, -1, half);
    const double right = reach_above(across, middle, 1, half);
    shape.width_mm = left + right;
    shape.x_mm = across.mm_of(middle) + 0.5 * (right - left);
    const double core = std::max(kLeastCoreMm, kCoreShare * shape.width_mm);
    const Cut along = cut_along(signal, shape.x_mm, 0.5 * core, low_mm, high_mm);
    const std::size_t top = highest_between(along, y_mm - kSearchMm, y_mm + kSearchMm);
    const double level = level_under(along, top);
    const double height = along.values[top] - level;
    if (!(height > 0.0)) {
        return std::nullopt;
    }
    measure_top(along, top, level, shape);
    const double top_mm = along.mm_of(top);
    shape.half_width = reach_above(along, top, -1, level + 0.5 * height) +
                       reach_above(along, top, 1, level + 0.5 * height);
    shape.low_mm = top_mm - reach_above(along, top, -1, level + kFootShare * height);
    shape.high_mm = top_mm + reach_above(along, top, 1, level + kFootShare * height);
    shape.below_mm = std::max(0.0, shape.y_mm - shape.low_mm);
    shape.above_mm = std::max(0.0, shape.high_mm - shape.y_mm);
    shape.height = along.values[top];
    shape.contrast = 1.0 - std::exp(-along.values[top]);
    for (const double value : along.values) {
        shape.area += std::max(0.0, value - level) * along.step_mm * shape.width_mm;
    }
    const bool spot = looks_like_spot(shape, lane, signal.width / signal.cells_per_mm);
    return spot ? std::optional(shape) : std::nullopt;
}

bool is_tailing(const SpotShape &shape) {
    const double longer = std::max(shape.below_mm, shape.above_mm);
    const double shorter = std::min(shape.below_mm, shape.above_mm);
    return longer > kTailing * std::max(shorter, 0.25 * shape.half_width);
}

} // namespace cospot::plate_photo
