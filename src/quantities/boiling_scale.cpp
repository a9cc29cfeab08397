#include "quantities/boiling_scale.h"

#include "quantities/boiling_point_table.h"
#include "quantities/domain.h"
#include "shared/embedded_table.h"
#include "shared/table.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <sstream>
#include <string>

namespace cospot::quantities {

namespace {

/// Degrees C by carbon number.
const std::map<int, double> &boiling_points() {
    static const std::map<int, double> points = [] {
        std::istringstream in{std::string(without_comments(kAlkaneBoilingPoints))};
        TableReader table(in, "alkane_boiling_points.tsv", {{"carbon", true}, {"celsius", true}});
        std::map<int, double> read;
        while (table.next()) {
            read[static_cast<int>(table.number("carbon", "a carbon number"))] =
                table.number("celsius", "a boiling point in degrees C");
        }
        return read;
    }();
    return points;
}

} // namespace

std::optional<double> alkane_boiling_point(int carbon) {
    const auto found = boiling_points().find(carbon);
    return found == boiling_points().end() ? std::nullopt : std::optional(found->second);
}

double boiling_point_from_index(double index) {
    const int first = boiling_points().begin()->first;
    const int last = boiling_points().rbegin()->first;
    require(
        index >= 100.0 * first && index <= 100.0 * last, "a retention index", index,
        fmt::format("{} to {}: the alkanes whose boiling point is known", 100 * first, 100 * last));
    const int lower = std::min(static_cast<int>(index / 100.0), last - 1);
    const double share = index / 100.0 - lower;
    const auto &points = boiling_points();
    return points.at(lower) + share * (points.at(lower + 1) - points.at(lower));
}

BoilingScale boiling_scale(const Ladder &ladder) {
    check_ladder(ladder, LadderGaps::interpolate);
    if (ladder.scale != IndexScale::n_alkane) {
        throw InputError({},
                         ladder.scale
                             ? fmt::format("a ladder of the {} scale", to_text(*ladder.scale))
                             : "a ladder of another series",
                         "a ladder of n-alkanes");
    }
    BoilingScale scale;
    for (const LadderPoint &point : ladder.points) {
        const int carbon = static_cast<int>(std::lround(point.carbon));
        if (const auto celsius = alkane_boiling_point(carbon)) {
            scale.members.push_back({carbon, point.retention_time_min, *celsius});
        } else {
            scale.left_out.push_back(carbon);
        }
    }
    if (scale.members.size() < 2) {
        throw InputError(
            {}, fmt::format("{} n-alkanes with a known boiling point", scale.members.size()),
            "two or more of C5 to C44");
    }
    return scale;
}

ScaledTime boiling_point_at(const BoilingScale &scale, double retention_time_min) {
    const auto &members = scale.members;
    if (retention_time_min < members.front().time_min) {
        return {LadderPosition::before_first, std::nullopt};
    }
    if (retention_time_min > members.back().time_min) {
        return {LadderPosition::after_last, std::nullopt};
    }
    auto upper = std::lower_bound(
        members.begin(), members.end(), retention_time_min,
        [](const BoilingMember &member, double time) { return member.time_min < time; });
    if (upper->time_min == retention_time_min) {
        return {LadderPosition::inside, upper->celsius};
    }
    const auto lower = upper - 1;
    const double share =
        (retention_time_min - lower->time_min) / (upper->time_min - lower->time_min);
    return {LadderPosition::inside, lower->celsius + share * (upper->celsius - lower->celsius)};
}

} // namespace cospot::quantities
