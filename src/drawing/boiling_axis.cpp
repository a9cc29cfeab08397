#include "drawing/boiling_axis.h"

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

/// The time of a boiling point between the first and the last member.
double time_of(const quantities::BoilingScale &scale, double celsius) {
    const auto &members = scale.members;
    const auto upper = std::find_if(members.begin() + 1, members.end() - 1,
                                    [&](const auto &member) { return member.celsius >= celsius; });
    const auto lower = upper - 1;
    return std::lerp(lower->time_min, upper->time_min,
                     (celsius - lower->celsius) / (upper->celsius - lower->celsius));
}

} // namespace

std::vector<TimeTick> boiling_ticks(const quantities::BoilingScale &scale, double from_min,
                                    double to_min, double most) {
    const double first = std::max(from_min, scale.members.front().time_min);
    const double last = std::min(to_min, scale.members.back().time_min);
    if (first >= last) {
        return {};
    }
    const double low = boiling_point_at(scale, first).celsius.value();
    const double high = boiling_point_at(scale, last).celsius.value();
    std::vector<TimeTick> ticks;
    for (const double celsius : axis_ticks(low, high, round_step(high - low, most))) {
        ticks.push_back({time_of(scale, celsius), celsius});
    }
    return ticks;
}

} // namespace cospot
