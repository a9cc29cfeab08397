#include "quantities/ladder.h"

#include "quantities/domain.h"

#include <algorithm>
#include <limits>

namespace cospot::quantities {

namespace {

std::string member(double carbon) {
    return "C" + exact_text(carbon);
}

std::string timed_member(const LadderPoint &point) {
    return fmt::format("{} at {} min", member(point.carbon), exact_text(point.retention_time_min));
}

void check_point(const LadderPoint &point) {
    require(point.carbon > 0.0, "a carbon number", point.carbon, "a carbon number above 0");
    require(point.retention_time_min > 0.0,
            fmt::format("a retention time for {}", member(point.carbon)), point.retention_time_min,
            "a retention time above 0 min");
}

void check_order(const LadderPoint &before, const LadderPoint &after) {
    if (after.carbon == before.carbon) {
        throw InputError({}, fmt::format("{} twice in the ladder", member(after.carbon)),
                         "each member of the ladder once");
    }
    if (after.carbon < before.carbon) {
        throw InputError(
            {}, fmt::format("{} listed after {}", member(after.carbon), member(before.carbon)),
            "ladder members in ascending order of carbon number");
    }
    if (after.retention_time_min <= before.retention_time_min) {
        throw InputError(
            {}, fmt::format("{}, but {}", timed_member(before), timed_member(after)),
            "retention times that rise with the carbon number (are two members exchanged?)");
    }
}

/// "C9 missing" or "C9 to C11 missing": what a regular ladder would have between the two.
std::string missing_members(double lower, double upper, double step) {
    const double first = lower + step;
    double last = first;
    while (last + step < upper) {
        last += step;
    }
    return first == last ? member(first) : fmt::format("{} to {}", member(first), member(last));
}

void check_gap(const LadderPoint &before, const LadderPoint &after, double step) {
    if (after.carbon - before.carbon > step) {
        throw InputError({},
                         fmt::format("a gap in the ladder, {} missing between {} and {}",
                                     missing_members(before.carbon, after.carbon, step),
                                     member(before.carbon), member(after.carbon)),
                         fmt::format("a ladder in regular steps of {}, or consent to interpolate "
                                     "across its gaps",
                                     exact_text(step)));
    }
}

} // namespace

double smallest_step(const Ladder &ladder) {
    double step = std::numeric_limits<double>::infinity();
    for (std::size_t i = 1; i < ladder.points.size(); ++i) {
        step = std::min(step, ladder.points[i].carbon - ladder.points[i - 1].carbon);
    }
    return step;
}

void check_ladder(const Ladder &ladder, LadderGaps gaps) {
    const auto &points = ladder.points;
    if (points.size() < 2) {
        throw InputError({},
                         points.empty()
                             ? "a ladder without members"
                             : fmt::format("a ladder of {} alone", member(points[0].carbon)),
                         "at least two ladder members");
    }
    std::for_each(points.begin(), points.end(), check_point);
    for (std::size_t i = 1; i < points.size(); ++i) {
        check_order(points[i - 1], points[i]);
    }
    if (gaps == LadderGaps::interpolate) {
        return;
    }
    const double step = smallest_step(ladder);
    for (std::size_t i = 1; i < points.size(); ++i) {
        check_gap(points[i - 1], points[i], step);
    }
}

} // namespace cospot::quantities
