#include "signal/local_baseline.h"

#include "signal/maxima.h"
#include "signal/peak_places.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace cospot::signal {

namespace {

/// A peak so many times as wide as its neighbour, and the valley so many times as low, is drift to
/// the neighbour.
constexpr double kWider = 3.0;
constexpr double kDriftValley = 10.0;
/// Deviations by which a signal that still falls does so over a half width. With two, more of long
/// tails was lost; with none, borders went astray in noise (tried on generated traces).
constexpr double kEndFall = 1.0;
constexpr double kLevel = 2.0;     ///< deviations within which a valley is level
constexpr double kFlat = 0.5;      ///< length of a level valley, in half widths
constexpr double kEndMargin = 1.0; ///< beyond a level, for what is left of a tail; in half widths
constexpr double kMostMean = 1.0;  ///< points beyond an end, in half widths
constexpr double kMostStep = 4.0;  ///< deviations that these points may be off the end
constexpr double kMostAbove = 4.0; ///< deviations that the line may lie above the signal
/// Standard uncertainties by which an end must lie off the baseline of the whole trace: 95 of 100
/// ends that lie on it do not.
constexpr double kOffBaseline = 2.0;

/// Peaks from `begin` up to, not including, `end`.
using Group = Range;

double width_at(const CorrectedTrace &trace, const PeakPlace &place) {
    const double level = 0.5 * trace.smoothed[place.top];
    const double seen = fall_to(trace.x, trace.smoothed, level, place.top, place.end).x -
                        fall_to(trace.x, trace.smoothed, level, place.top, place.start).x;
    return std::max(seen, trace.used.narrowest_half_width);
}

/// Whether the signal stays level around a valley: overlapping peaks make steep ones.
bool is_flat(const CorrectedTrace &trace, std::size_t valley, double half_width) {
    const double most = trace.smoothed_raw[valley] + kLevel * trace.noise.deviation;
    const Stretch level = below(trace.smoothed_raw, valley, most);
    return trace.x[level.last] - trace.x[level.first] > kFlat * half_width;
}

/// Whether no group reaches over the end of `places[k]`. A shoulder has no width of its own that
/// could be relied on: that of its peak counts.
bool parts_groups(const CorrectedTrace &trace, std::span<const PeakPlace> places, std::size_t k) {
    if (!places[k].shares_end) {
        return true;
    }
    const double valley = trace.smoothed[places[k].end];
    if (valley >= trace.smoothed[places[k].top] || valley >= trace.smoothed[places[k + 1].top]) {
        return false; // a border on the flank of one peak
    }
    std::size_t before = k;
    while (before > 0 && places[before].is_shoulder) {
        --before;
    }
    std::size_t after = k + 1;
    while (after + 1 < places.size() && places[after].is_shoulder) {
        ++after;
    }
    const double first = trace.smoothed[places[before].top];
    const double second = trace.smoothed[places[after].top];
    const double first_width = width_at(trace, places[before]);
    const double second_width = width_at(trace, places[after]);
    return valley * kBaselineValley < std::min(first, second) ||
           is_flat(trace, places[k].end, std::min(first_width, second_width)) ||
           (first_width > kWider * second_width && valley * kDriftValley < second) ||
           (second_width > kWider * first_width && valley * kDriftValley < first);
}

std::vector<Group> groups_of(const CorrectedTrace &trace, const std::vector<PeakPlace> &places) {
    std::vector<Group> groups;
    for (std::size_t k = 0; k < places.size(); ++k) {
        if (k == 0 || parts_groups(trace, places, k - 1)) {
            groups.push_back({k, k});
        }
        groups.back().end = k + 1;
    }
    return groups;
}

/// Points of the signal between which a line runs.
struct Chord {
    std::size_t start = 0;
    std::size_t end = 0;
};

double height_of(const CorrectedTrace &trace, const Chord &chord, std::size_t at) {
    const auto &y = trace.smoothed_raw;
    const double share =
        (trace.x[at] - trace.x[chord.start]) / (trace.x[chord.end] - trace.x[chord.start]);
    return y[chord.start] + share * (y[chord.end] - y[chord.start]);
}

/// The points from which, going from `from` to `to`, the signal is seen from below: its lower
/// convex hull.
std::vector<std::size_t> lower_hull(const CorrectedTrace &trace, std::size_t from, std::size_t to) {
    std::vector<std::size_t> hull;
    for (std::size_t i = from; i <= to; ++i) {
        while (hull.size() > 1 && trace.smoothed_raw[hull.back()] >=
                                      height_of(trace, {hull[hull.size() - 2], i}, hull.back())) {
            hull.pop_back();
        }
        hull.push_back(i);
    }
    return hull;
}

/// How far a peak goes to one side at most: to where the signal falls no more, and a margin.
std::size_t reach_of(const CorrectedTrace &trace, const PeakPlace &place, bool after,
                     std::size_t last) {
    const double width = width_at(trace, place);
    const auto far = [&](std::size_t from, double way) {
        const double to = trace.x[from] + (after ? way : -way);
        return after ? std::min(last, point_at(trace.x, to))
                     : std::max(last, point_at(trace.x, to));
    };
    const double least = kEndFall * trace.noise.deviation;
    const std::size_t farthest = far(place.top, kMostReach * width);
    std::size_t i = far(place.top, 0.5 * width);
    while (i != farthest && i != last &&
           trace.smoothed_raw[i] - trace.smoothed_raw[far(i, width)] > least) {
        i = after ? i + 1 : i - 1;
    }
    return far(i, kEndMargin * width);
}

/// The edges of the hull that span a top, lines that touch the signal from below: one, or several
/// where a valley of the group lies on it.
std::vector<Chord> chords_of(const CorrectedTrace &trace, std::span<const PeakPlace> group,
                             const Chord &room) {
    const auto hull = lower_hull(trace, reach_of(trace, group.front(), false, room.start),
                                 reach_of(trace, group.back(), true, room.end));
    std::vector<Chord> chords;
    for (std::size_t k = 0; k + 1 < hull.size(); ++k) {
        if (std::any_of(group.begin(), group.end(), [&](const PeakPlace &place) {
                return hull[k] < place.top && place.top < hull[k + 1];
            })) {
            chords.push_back({hull[k], hull[k + 1]});
        }
    }
    return chords;
}

/// Points beyond an end, over which the signal stays at the level that it has there.
Range level_points(const CorrectedTrace &trace, std::size_t at, bool after, std::size_t last,
                   double reach) {
    const double most = kMostStep * trace.noise.deviation;
    std::size_t i = at;
    while (i != last) {
        const std::size_t next = after ? i + 1 : i - 1;
        if (std::abs(trace.x[next] - trace.x[at]) > reach || trace.level[next] == 0.0 ||
            std::abs(trace.smoothed_raw[next] - trace.smoothed_raw[at]) > most) {
            break;
        }
        i = next;
    }
    return after ? Range{at, i + 1} : Range{i, at + 1};
}

double mean_of(const CorrectedTrace &trace, const Range &points) {
    if (points.end - points.begin == 1) {
        return trace.smoothed_raw[points.begin];
    }
    double sum = 0.0;
    for (std::size_t i = points.begin; i < points.end; ++i) {
        sum += trace.raw[i];
    }
    return sum / static_cast<double>(points.end - points.begin);
}

/// The line at the points under which it is drawn.
std::vector<double> line_values(const CorrectedTrace &trace, const BaselineLine &line) {
    const double first = mean_of(trace, line.before);
    const double last = mean_of(trace, line.after);
    const double start = trace.x[line.under.begin];
    const double slope = (last - first) / (trace.x[line.under.end - 1] - start);
    std::vector<double> values;
    for (std::size_t i = line.under.begin; i < line.under.end; ++i) {
        values.push_back(first + slope * (trace.x[i] - start));
    }
    values.back() = last;
    return values;
}

double widest_of(const CorrectedTrace &trace, std::span<const PeakPlace> places) {
    double widest = 0.0;
    for (const PeakPlace &place : places) {
        widest = std::max(widest, width_at(trace, place));
    }
    return widest;
}

/// Whether the mean of points lies off the baseline of the whole trace by more than noise explains.
bool is_off(const CorrectedTrace &trace, const Range &points) {
    const std::size_t count = points.end - points.begin;
    if (count == 1) {
        return std::abs(trace.smoothed[points.begin]) > kOffBaseline * trace.noise.deviation;
    }
    double mean = 0.0;
    for (std::size_t i = points.begin; i < points.end; ++i) {
        mean += trace.recorded[i] / static_cast<double>(count);
    }
    const double variance =
        variance_of_sum(trace.noise, trace.x.subspan(points.begin, count),
                        std::vector<double>(count, 1.0 / static_cast<double>(count)));
    return mean * mean > kOffBaseline * kOffBaseline * variance;
}

/// The line under the peaks that a chord spans; nothing where it cannot be told, or lies above the
/// signal. `first` and `last` are the points to which it may look.
std::optional<BaselineLine> line_of(const CorrectedTrace &trace, const Chord &chord,
                                    std::size_t first, std::size_t last, double width) {
    if (chord.start == 0 || chord.end + 1 == trace.x.size()) {
        return std::nullopt;
    }
    const BaselineLine line{.under = {chord.start, chord.end + 1},
                            .before =
                                level_points(trace, chord.start, false, first, kMostMean * width),
                            .after = level_points(trace, chord.end, true, last, kMostMean * width)};
    if (!is_off(trace, line.before) && !is_off(trace, line.after)) {
        return std::nullopt;
    }
    const double most = kMostAbove * trace.noise.deviation;
    const auto drawn = line_values(trace, line);
    for (std::size_t i = 0; i < drawn.size(); ++i) {
        if (drawn[i] > trace.smoothed_raw[chord.start + i] + most) {
            return std::nullopt;
        }
    }
    return line;
}

/// The peaks of a group that a chord spans.
std::span<PeakPlace> spanned(std::span<PeakPlace> group, const Chord &chord) {
    const auto begin = std::find_if(group.begin(), group.end(), [&](const PeakPlace &place) {
        return place.top > chord.start;
    });
    const auto end = std::find_if(begin, group.end(),
                                  [&](const PeakPlace &place) { return place.top >= chord.end; });
    return {begin, end};
}

/// The peaks under which a line is drawn reach from its start to its end, and share with no other.
void set_borders(std::vector<PeakPlace> &places, std::span<PeakPlace> under, const Chord &chord) {
    const auto first = static_cast<std::size_t>(under.data() - places.data());
    const std::size_t next = first + under.size();
    under.front().start = chord.start;
    under.front().shares_start = false;
    under.back().end = chord.end;
    under.back().shares_end = false;
    if (first > 0) {
        places[first - 1].shares_end = false;
        places[first - 1].end = std::min(places[first - 1].end, chord.start);
    }
    if (next < places.size()) {
        places[next].shares_start = false;
        places[next].start = std::max(places[next].start, chord.end);
    }
}

} // namespace

void draw_local_baselines(CorrectedTrace &trace, std::vector<PeakPlace> &places,
                          std::vector<double> &baseline) {
    for (const Group &range : groups_of(trace, places)) {
        const std::span<PeakPlace> group(places.data() + range.begin, range.end - range.begin);
        const Chord room{range.begin > 0 ? places[range.begin - 1].end : 0,
                         range.end < places.size() ? places[range.end].start : trace.x.size() - 1};
        for (const Chord &chord : chords_of(trace, group, room)) {
            const auto under = spanned(group, chord);
            const auto before = static_cast<std::size_t>(under.data() - places.data());
            const std::size_t next = before + under.size();
            const std::size_t first = before > 0 ? places[before - 1].end : 0;
            const std::size_t last = next < places.size() ? places[next].start : trace.x.size() - 1;
            const auto line = line_of(trace, chord, std::min(first, chord.start),
                                      std::max(last, chord.end), widest_of(trace, under));
            if (line) {
                set_borders(places, under, chord);
                trace.lines.push_back(*line);
            }
        }
    }
    for (const BaselineLine &line : trace.lines) {
        const auto drawn = line_values(trace, line);
        std::copy(drawn.begin(), drawn.end(),
                  baseline.begin() + static_cast<std::ptrdiff_t>(line.under.begin));
    }
}

} // namespace cospot::signal
