#include "signal/peak_places.h"

#include "signal/maxima.h"

#include <algorithm>
#include <cmath>

namespace cospot::signal {

namespace {

constexpr double kValleyFloor = 0.005;  ///< of the height: less of a valley is no valley
constexpr double kShoulderFloor = 0.02; ///< of the bend of the peak beside it
/// Least height of a shoulder alone, as its bend and the width of that tell it, as a share of the
/// height of the peak beside it: ripples on wide peaks bend more than these, but are low.
constexpr double kShoulderHeightFloor = 0.02;
constexpr double kShoulderDistance = 0.5; ///< least, from the peak beside it, in narrowest widths
constexpr double kSeenShare = 0.5;        ///< of the depth of a dip, that is in the recorded points
constexpr double kDeepDeviations = 6.0;
constexpr double kMargin = 0.5; ///< beside a peak, in narrowest widths

/// What a signal bends downwards at each point: its second derivative, negative.
std::vector<double> bend_of(std::span<const double> x, std::span<const double> values) {
    std::vector<double> bend(values.size(), 0.0);
    for (std::size_t i = 1; i + 1 < values.size(); ++i) {
        const double after = (values[i + 1] - values[i]) / (x[i + 1] - x[i]);
        const double before = (values[i] - values[i - 1]) / (x[i] - x[i - 1]);
        bend[i] = -2.0 * (after - before) / (x[i + 1] - x[i - 1]);
    }
    return bend;
}

/// Where a peak ends in one direction: at the baseline, at `last`, or as far as peaks reach.
std::size_t border(std::span<const double> x, std::span<const double> smoothed, std::size_t top,
                   std::size_t last) {
    const Fall half = fall_to(x, smoothed, 0.5 * smoothed[top], top, last);
    const double reach = 2.0 * kMostReach * std::abs(half.x - x[top]);
    std::size_t i = top;
    while (i != last && smoothed[i] > 0.0 && std::abs(x[i] - x[top]) < reach) {
        i = last > i ? i + 1 : i - 1;
    }
    return i;
}

std::size_t lowest(std::span<const double> values, std::size_t from, std::size_t to) {
    const auto begin = values.begin() + static_cast<std::ptrdiff_t>(from);
    const auto end = values.begin() + static_cast<std::ptrdiff_t>(to) + 1;
    return static_cast<std::size_t>(std::min_element(begin, end) - values.begin());
}

/// What is needed to tell shoulders.
struct Bends {
    std::span<const double> x, smoothed;
    const std::vector<double> &bend;
    double least_height = 0.0;
    double least_bend = 0.0;
    double narrowest = 0.0;
};

/// The height of a Gaussian that bends as much, from one of its points of inflection to the other.
double bent_height(const Bends &bends, const PeakPlace &peak, std::size_t at) {
    const double sigma = 0.5 * (fall_to(bends.x, bends.bend, 0.0, at, peak.end).x -
                                fall_to(bends.x, bends.bend, 0.0, at, peak.start).x);
    return bends.bend[at] * sigma * sigma;
}

bool is_shoulder_of(const Bends &bends, const PeakPlace &peak, std::size_t at) {
    return at > peak.start && at < peak.end &&
           std::abs(bends.x[at] - bends.x[peak.top]) > kShoulderDistance * bends.narrowest &&
           bends.bend[at] > bends.least_bend &&
           bends.bend[at] > kShoulderFloor * bends.bend[peak.top] &&
           bends.smoothed[at] > bends.least_height &&
           bent_height(bends, peak, at) > kShoulderHeightFloor * bends.smoothed[peak.top];
}

/// The bend of the top itself is not a shoulder, wherever smoothing has put it.
std::size_t own_bend(const std::vector<Maximum> &maxima, std::size_t top) {
    std::size_t nearest = maxima.size();
    const auto distance = [&](std::size_t k) {
        return maxima[k].top > top ? maxima[k].top - top : top - maxima[k].top;
    };
    for (std::size_t k = 0; k < maxima.size(); ++k) {
        if (nearest == maxima.size() || distance(k) < distance(nearest)) {
            nearest = k;
        }
    }
    return nearest;
}

std::vector<PeakPlace> with_shoulders_of(const Bends &bends, const std::vector<PeakPlace> &peaks) {
    const auto maxima = prominent_maxima(bends.bend, {bends.least_bend, kShoulderFloor});
    std::vector<PeakPlace> places;
    for (const PeakPlace &peak : peaks) {
        const auto inside_end = std::find_if(maxima.begin(), maxima.end(),
                                             [&](const Maximum &m) { return m.top >= peak.end; });
        const auto inside = std::find_if(maxima.begin(), inside_end,
                                         [&](const Maximum &m) { return m.top > peak.start; });
        const std::vector<Maximum> own(inside, inside_end);
        const std::size_t main = own_bend(own, peak.top);
        std::vector<PeakPlace> parts;
        for (std::size_t k = 0; k < own.size(); ++k) {
            if (k != main && is_shoulder_of(bends, peak, own[k].top)) {
                parts.push_back({.top = own[k].top, .is_shoulder = true});
            }
        }
        parts.push_back({.top = peak.top});
        std::sort(parts.begin(), parts.end(),
                  [](const PeakPlace &a, const PeakPlace &b) { return a.top < b.top; });
        parts.front().start = peak.start;
        parts.front().shares_start = peak.shares_start;
        parts.back().end = peak.end;
        parts.back().shares_end = peak.shares_end;
        for (std::size_t k = 0; k + 1 < parts.size(); ++k) {
            parts[k].end = lowest(bends.bend, parts[k].top, parts[k + 1].top);
            parts[k + 1].start = parts[k].end;
            parts[k].shares_end = true;
            parts[k + 1].shares_start = true;
        }
        places.insert(places.end(), parts.begin(), parts.end());
    }
    return places;
}

} // namespace

Stretch below(std::span<const double> values, std::size_t at, double level) {
    Stretch stretch{at, at};
    while (stretch.first > 0 && values[stretch.first - 1] < level) {
        --stretch.first;
    }
    while (stretch.last + 1 < values.size() && values[stretch.last + 1] < level) {
        ++stretch.last;
    }
    return stretch;
}

std::vector<PeakPlace> find_places(std::span<const double> x, std::span<const double> smoothed,
                                   std::span<const double> free, double deviation,
                                   const UsedSettings &used, bool with_shoulders) {
    const double least = used.threshold * deviation;
    std::vector<PeakPlace> places;
    for (const Maximum &maximum : prominent_maxima(smoothed, {least, kValleyFloor})) {
        if (smoothed[maximum.top] > least) {
            places.push_back({.top = maximum.top,
                              .start = border(x, smoothed, maximum.top, maximum.valley_before),
                              .end = border(x, smoothed, maximum.top, maximum.valley_after)});
        }
    }
    for (std::size_t i = 0; i + 1 < places.size(); ++i) {
        const bool shared = places[i].end == places[i + 1].start && smoothed[places[i].end] > 0.0;
        places[i].shares_end = shared;
        places[i + 1].shares_start = shared;
    }
    if (!with_shoulders) {
        return places;
    }
    const std::vector<double> bend = bend_of(x, smoothed);
    return with_shoulders_of({.x = x,
                              .smoothed = smoothed,
                              .bend = bend,
                              .least_height = least,
                              .least_bend = used.threshold * free_deviation(bend, free),
                              .narrowest = used.narrowest_half_width},
                             places);
}

std::vector<double> free_points(std::span<const double> x, std::span<const double> smoothed,
                                const std::vector<PeakPlace> &places, double narrowest) {
    std::vector<double> free(x.size(), 1.0);
    const double margin = kMargin * narrowest;
    const auto cover = [&](double from, double to) {
        const auto begin = std::lower_bound(x.begin(), x.end(), from - margin) - x.begin();
        const auto end = std::upper_bound(x.begin(), x.end(), to + margin) - x.begin();
        std::fill(free.begin() + begin, free.begin() + end, 0.0);
    };
    for (const PeakPlace &place : places) {
        cover(x[place.start], x[place.end]);
    }
    for (std::size_t k = 0; k + 1 < places.size(); ++k) {
        const std::size_t valley = places[k].end;
        const double height = std::min(smoothed[places[k].top], smoothed[places[k + 1].top]);
        if (places[k].shares_end && smoothed[valley] * kBaselineValley < height) {
            free[valley] = 1.0;
        }
    }
    return free;
}

bool leave_dips_out(std::span<const double> x, std::span<const double> recorded,
                    std::span<const double> smoothed, double deviation, double narrowest,
                    std::vector<double> &level) {
    const double margin = kMargin * narrowest;
    bool any = false;
    for (std::size_t i = 0; i < x.size(); ++i) {
        if (smoothed[i] >= -kDeepDeviations * deviation || level[i] == 0.0) {
            continue;
        }
        const Stretch dip = below(smoothed, i, -deviation);
        double seen = 0.0;
        double drawn = 0.0;
        for (std::size_t k = dip.first; k <= dip.last; ++k) {
            seen += recorded[k];
            drawn += smoothed[k];
        }
        if (seen < kSeenShare * drawn) { // else it is what smoothing makes beside a steep peak
            any = true;
            const auto begin =
                std::lower_bound(x.begin(), x.end(), x[dip.first] - margin) - x.begin();
            const auto end = std::upper_bound(x.begin(), x.end(), x[dip.last] + margin) - x.begin();
            std::fill(level.begin() + begin, level.begin() + end, 0.0);
        }
        i = dip.last;
    }
    return any;
}

std::vector<double> local_half_widths(std::span<const double> x, std::span<const double> smoothed,
                                      const std::vector<PeakPlace> &places,
                                      const UsedSettings &used) {
    std::vector<double> at;
    std::vector<double> width;
    for (const PeakPlace &place : places) {
        if (!place.is_shoulder) {
            const double level = 0.5 * smoothed[place.top];
            const double seen = fall_to(x, smoothed, level, place.top, place.end).x -
                                fall_to(x, smoothed, level, place.top, place.start).x;
            at.push_back(x[place.top]);
            width.push_back(std::clamp(seen, used.narrowest_half_width, used.widest_half_width));
        }
    }
    if (at.empty()) {
        return std::vector<double>(x.size(), used.widest_half_width);
    }
    std::vector<double> local(x.size());
    std::size_t j = 0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        while (j + 1 < at.size() && x[i] > at[j + 1]) {
            ++j;
        }
        const bool beyond = x[i] <= at[j] || j + 1 == at.size();
        const double share = beyond ? 0.0 : (x[i] - at[j]) / (at[j + 1] - at[j]);
        local[i] = beyond ? width[j] : width[j] + share * (width[j + 1] - width[j]);
    }
    return local;
}

} // namespace cospot::signal
