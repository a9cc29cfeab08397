#include "audit/replicate_picture.h"

#include "audit/date_shifts.h"
#include "audit/robust.h"
#include "drawing/axis_ticks.h"
#include "drawing/svg.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace cospot {

namespace {

constexpr double kReplicateWidth = 500.0;
constexpr double kReplicateLeft = 66.0;
constexpr double kReplicateRight = kReplicateWidth - 60.0;
constexpr double kReplicateTop = 26.0;
constexpr double kReplicateBase = 184.0;
constexpr double kReplicateHeight = 212.0;

/// Ends of an axis and its ticks.
struct ValueAxis {
    double low = 0.0;
    double high = 1.0;
    double step = 0.1;

    [[nodiscard]] double y(double value) const {
        return kReplicateBase - (kReplicateBase - kReplicateTop) * (value - low) / (high - low);
    }
};

ValueAxis value_axis(const std::vector<DrawnValue> &values) {
    const auto [low, high] = std::minmax_element(
        values.begin(), values.end(),
        [](const DrawnValue &a, const DrawnValue &b) { return a.value < b.value; });
    const double range = high->value - low->value;
    const double margin = range > 0.0 ? 0.15 * range : std::max(0.01, 0.01 * high->value);
    const ValueAxis axis{low->value - margin, high->value + margin, 0.0};
    return {axis.low, axis.high, round_step(axis.high - axis.low, 5)};
}

/// Days on which the values were measured, where all are known and not all the same.
std::optional<std::vector<double>> days_of(const std::vector<DrawnValue> &values) {
    std::vector<double> days;
    for (const DrawnValue &value : values) {
        const auto day = day_number(value.date);
        if (!day || value.date.size() < 10) {
            return std::nullopt;
        }
        days.push_back(*day);
    }
    const auto [first, last] = std::minmax_element(days.begin(), days.end());
    return *first < *last ? std::optional(days) : std::nullopt;
}

std::vector<double> places(const std::vector<DrawnValue> &values,
                           const std::optional<std::vector<double>> &days) {
    std::vector<double> x;
    const auto n = static_cast<double>(values.size());
    for (std::size_t i = 0; i < values.size(); ++i) {
        double share = (static_cast<double>(i) + 0.5) / n;
        if (days) {
            const auto [first, last] = std::minmax_element(days->begin(), days->end());
            share = ((*days)[i] - *first) / (*last - *first);
        }
        x.push_back(kReplicateLeft + 14 + (kReplicateRight - kReplicateLeft - 28) * share);
    }
    return x;
}

std::string value_ticks(const ValueAxis &axis, const std::string &unit) {
    std::string svg;
    for (const double tick : axis_ticks(axis.low, axis.high, axis.step)) {
        svg += svg::line(kReplicateLeft, axis.y(tick), kReplicateRight, axis.y(tick), "grid");
        svg += svg::text(kReplicateLeft - 7, axis.y(tick) + 4, "end", tick_text(tick, axis.step),
                         "tick");
    }
    return svg + svg::text(kReplicateLeft - 7, kReplicateTop - 12, "end", unit, "tick");
}

std::string date_ticks(const std::vector<DrawnValue> &values,
                       const std::optional<std::vector<double>> &days) {
    if (!days) {
        return svg::text((kReplicateLeft + kReplicateRight) / 2, kReplicateBase + 20, "middle",
                         "in the order of the table, since dates are not known of all", "tick");
    }
    const auto [first, last] = std::minmax_element(days->begin(), days->end());
    const auto date_at = [&](auto day) {
        return values[static_cast<std::size_t>(day - days->begin())].date;
    };
    return svg::text(kReplicateLeft + 14, kReplicateBase + 20, "start", date_at(first), "tick") +
           svg::text(kReplicateRight - 14, kReplicateBase + 20, "end", date_at(last), "tick");
}

std::string mark_svg(const DrawnValue &value, double x, double y) {
    std::string svg =
        svg::begin_mark(value.key, value.title, value.is_suspect ? "value odd" : "value");
    const std::string cx = svg::number(x);
    const std::string cy = svg::number(y);
    svg += value.is_suspect
               ? fmt::format(R"(<path d="M{} {}l7 7l-7 7l-7 -7Z"/>)", cx, svg::number(y - 7))
               : fmt::format(R"(<ellipse cx="{}" cy="{}" rx="4.5" ry="4.5"/>)", cx, cy);
    return svg.append(svg::kEndMark).append("\n");
}

} // namespace

std::string replicate_picture(const std::vector<DrawnValue> &values, const std::string &unit,
                              const std::string &title) {
    const ValueAxis axis = value_axis(values);
    const auto days = days_of(values);
    const std::vector<double> x = places(values, days);
    std::vector<double> numbers;
    std::size_t suspect = 0;
    for (const DrawnValue &value : values) {
        numbers.push_back(value.value);
        suspect += value.is_suspect ? 1 : 0;
    }
    std::string svg = svg::begin(kReplicateWidth, kReplicateHeight, "replicates", title,
                                 fmt::format("{} values, {} of them suspect; the table lists them.",
                                             values.size(), suspect));
    svg += value_ticks(axis, unit) + date_ticks(values, days);
    const double middle = axis.y(median(numbers));
    svg += svg::line(kReplicateLeft, middle, kReplicateRight, middle, "median");
    svg += svg::text(kReplicateRight + 5, middle + 4, "start", "median", "tick") + '\n';
    for (std::size_t i = 0; i < values.size(); ++i) {
        svg += mark_svg(values[i], x[i], axis.y(values[i].value));
    }
    return svg.append(svg::kEnd);
}

} // namespace cospot
