#include "quantities/retention_index.h"

#include "quantities/domain.h"

#include <algorithm>
#include <cmath>

namespace cospot::quantities {

namespace {

/// Two neighbouring members: x is an adjusted time or k (logarithmic law), or a time (linear law).
struct Bracket {
    double x_lower;
    double x_upper;
    double carbon_lower;
    double carbon_upper;
};

double index_at_share(const Bracket &bracket, double share) {
    return 100.0 * (bracket.carbon_lower + (bracket.carbon_upper - bracket.carbon_lower) * share);
}

double logarithmic_formula(const Bracket &bracket, double x) {
    return index_at_share(bracket, std::log(x / bracket.x_lower) /
                                       std::log(bracket.x_upper / bracket.x_lower));
}

double logarithmic_slope(const Bracket &bracket, double x) {
    return 100.0 * (bracket.carbon_upper - bracket.carbon_lower) /
           (x * std::log(bracket.x_upper / bracket.x_lower));
}

double linear_formula(const Bracket &bracket, double x) {
    return index_at_share(bracket, (x - bracket.x_lower) / (bracket.x_upper - bracket.x_lower));
}

double linear_slope(const Bracket &bracket) {
    return 100.0 * (bracket.carbon_upper - bracket.carbon_lower) /
           (bracket.x_upper - bracket.x_lower);
}

void require_hold_up(const Ladder &ladder, IndexLaw law, double hold_up_min) {
    require(hold_up_min >= 0.0, "a hold-up time", hold_up_min, "a hold-up time of 0 min or more");
    const LadderPoint &first = ladder.points.front();
    const bool in_time = law == IndexLaw::logarithmic ? hold_up_min < first.retention_time_min
                                                      : hold_up_min <= first.retention_time_min;
    require(in_time, "a hold-up time", hold_up_min,
            fmt::format("before the first ladder member, C{} at {} min", exact_text(first.carbon),
                        exact_text(first.retention_time_min)));
}

LadderPosition position_on_ladder(const Ladder &ladder, double retention_time_min,
                                  double hold_up_min) {
    if (retention_time_min <= hold_up_min) {
        return LadderPosition::before_hold_up;
    }
    if (retention_time_min < ladder.points.front().retention_time_min) {
        return LadderPosition::before_first;
    }
    if (retention_time_min > ladder.points.back().retention_time_min) {
        return LadderPosition::after_last;
    }
    return LadderPosition::inside;
}

/// How the index depends on the times of the members and of the hold-up (the law's derivatives,
/// each for an error of that time alone; an error that all share moves nothing).
double gain_of_ladder(const Bracket &bracket, double x, IndexLaw law) {
    const auto slope_at = [&](double at) {
        return law == IndexLaw::logarithmic ? logarithmic_slope(bracket, at)
                                            : linear_slope(bracket);
    };
    const double index =
        law == IndexLaw::logarithmic ? logarithmic_formula(bracket, x) : linear_formula(bracket, x);
    const double share =
        (index / 100.0 - bracket.carbon_lower) / (bracket.carbon_upper - bracket.carbon_lower);
    const double lower = slope_at(bracket.x_lower) * (1.0 - share);
    const double upper = slope_at(bracket.x_upper) * share;
    const double hold_up = law == IndexLaw::logarithmic ? lower + upper - slope_at(x) : 0.0;
    return std::hypot(lower, upper, hold_up);
}

/// The next term of Newton's interpolation formula: the second divided difference of the ladder
/// beside the bracket, the larger of the two sides, times the distances from both members.
double next_term(const Ladder &ladder, std::size_t start, double time, IndexLaw law,
                 double offset) {
    const auto along = [&](double minutes) {
        return law == IndexLaw::logarithmic ? std::log(minutes - offset) : minutes;
    };
    const auto x = [&](std::size_t i) { return along(ladder.points[i].retention_time_min); };
    const auto slope = [&](std::size_t i) {
        return 100.0 * (ladder.points[i + 1].carbon - ladder.points[i].carbon) / (x(i + 1) - x(i));
    };
    double bend = 0.0;
    if (start > 0) {
        bend = std::abs((slope(start) - slope(start - 1)) / (x(start + 1) - x(start - 1)));
    }
    if (start + 2 < ladder.points.size()) {
        bend =
            std::max(bend, std::abs((slope(start + 1) - slope(start)) / (x(start + 2) - x(start))));
    }
    return bend * std::abs((along(time) - x(start)) * (along(time) - x(start + 1)));
}

/// Number of the member that opens the bracket of this time; the outermost brackets reach beyond.
std::size_t bracket_start(const Ladder &ladder, double retention_time_min) {
    const auto inner_begin = ladder.points.begin() + 1;
    const auto inner_end = ladder.points.end() - 1;
    const auto next = std::upper_bound(
        inner_begin, inner_end, retention_time_min,
        [](double time, const LadderPoint &point) { return time < point.retention_time_min; });
    return static_cast<std::size_t>(next - inner_begin);
}

} // namespace

IndexedTime index_on_ladder(const Ladder &ladder, double retention_time_min, IndexLaw law,
                            double hold_up_min, bool extrapolate) {
    check_ladder(ladder, LadderGaps::interpolate);
    require(retention_time_min > 0.0, "a retention time", retention_time_min,
            "a retention time above 0 min");
    require_hold_up(ladder, law, hold_up_min);

    IndexedTime result;
    result.position = position_on_ladder(ladder, retention_time_min, hold_up_min);
    const bool outside = result.position != LadderPosition::inside;
    if (result.position == LadderPosition::before_hold_up || (outside && !extrapolate)) {
        return result;
    }
    const std::size_t start = bracket_start(ladder, retention_time_min);
    const LadderPoint &lower = ladder.points[start];
    const LadderPoint &upper = ladder.points[start + 1];
    const double offset = law == IndexLaw::logarithmic ? hold_up_min : 0.0;
    const Bracket bracket{lower.retention_time_min - offset, upper.retention_time_min - offset,
                          lower.carbon, upper.carbon};
    const double x = retention_time_min - offset;
    result.index =
        law == IndexLaw::logarithmic ? logarithmic_formula(bracket, x) : linear_formula(bracket, x);
    result.index_per_min =
        law == IndexLaw::logarithmic ? logarithmic_slope(bracket, x) : linear_slope(bracket);
    result.ladder_per_min = gain_of_ladder(bracket, x, law);
    result.extrapolated = outside;
    result.in_gap = upper.carbon - lower.carbon > smallest_step(ladder);
    if (result.in_gap || outside) {
        result.interpolation_uncertainty =
            next_term(ladder, start, retention_time_min, law, offset);
    }
    return result;
}

} // namespace cospot::quantities
