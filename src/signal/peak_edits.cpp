#include "signal/peak_edits.h"

#include "shared/error.h"
#include "shared/number.h"
#include "signal/peak_finder.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

namespace cospot::signal {

namespace {

std::string peaks_there(const FoundPeaks &found) {
    if (found.peaks.empty()) {
        return "no peak at all";
    }
    std::string text;
    for (const FoundPeak &peak : found.peaks) {
        text += fmt::format("{}{:.6g} ({:.6g} to {:.6g})", text.empty() ? "" : ", ", peak.apex,
                            peak.start, peak.end);
    }
    return text;
}

InputError misses(const FoundPeaks &found, const std::string &what, double at) {
    return {{},
            fmt::format("{} at {}", what, exact_text(at)),
            fmt::format("a place of one of the peaks, which are at: {}", peaks_there(found))};
}

CorrectedTrace trace_of(const FoundPeaks &found, std::span<const double> x,
                        std::span<const double> y) {
    if (found.baseline.size() != x.size()) {
        throw InputError(
            {}, fmt::format("a trace of {} points", x.size()),
            fmt::format("the {} points in which the peaks were found", found.baseline.size()));
    }
    return corrected_trace(x, y, found);
}

std::vector<PeakPlace> places_of(const FoundPeaks &found, std::span<const double> x) {
    std::vector<PeakPlace> places;
    for (const FoundPeak &peak : found.peaks) {
        places.push_back({.top = point_at(x, peak.apex),
                          .start = point_at(x, peak.start),
                          .end = point_at(x, peak.end),
                          .shares_start = peak.shares_start,
                          .shares_end = peak.shares_end,
                          .is_shoulder = peak.is_shoulder});
    }
    return places;
}

bool same_place(const PeakPlace &place, const FoundPeak &peak, std::span<const double> x) {
    return x[place.start] == peak.start && x[place.end] == peak.end &&
           place.shares_start == peak.shares_start && place.shares_end == peak.shares_end &&
           place.top == point_at(x, peak.apex);
}

/// The peaks at these places; those that were at the same place keep their figures.
FoundPeaks measured(const FoundPeaks &found, const CorrectedTrace &trace,
                    const std::vector<PeakPlace> &places) {
    FoundPeaks changed = found;
    changed.peaks = measure_peaks(trace, places);
    for (std::size_t i = 0; i < places.size(); ++i) {
        for (const FoundPeak &peak : found.peaks) {
            if (same_place(places[i], peak, trace.x)) {
                FoundPeak kept = peak;
                kept.resolution_to_next = changed.peaks[i].resolution_to_next;
                kept.peak_to_valley_to_next = changed.peaks[i].peak_to_valley_to_next;
                changed.peaks[i] = kept;
            }
        }
    }
    return changed;
}

/// The one peak whose borders hold `at`; at a shared border, that with the nearer apex.
std::size_t peak_at(const FoundPeaks &found, double at, const std::string &what) {
    std::size_t hit = found.peaks.size();
    for (std::size_t i = 0; i < found.peaks.size(); ++i) {
        const FoundPeak &peak = found.peaks[i];
        if (at >= peak.start && at <= peak.end &&
            (hit == found.peaks.size() ||
             std::abs(peak.apex - at) < std::abs(found.peaks[hit].apex - at))) {
            hit = i;
        }
    }
    if (hit == found.peaks.size()) {
        throw misses(found, what, at);
    }
    return hit;
}

std::size_t highest(const CorrectedTrace &trace, std::size_t first, std::size_t last) {
    const auto begin = trace.smoothed.begin();
    return static_cast<std::size_t>(
        std::max_element(begin + static_cast<std::ptrdiff_t>(first),
                         begin + static_cast<std::ptrdiff_t>(last) + 1) -
        begin);
}

std::size_t lowest_between(const CorrectedTrace &trace, std::size_t first, std::size_t last) {
    const auto begin = trace.smoothed.begin();
    return static_cast<std::size_t>(
        std::min_element(begin + static_cast<std::ptrdiff_t>(std::min(first, last)),
                         begin + static_cast<std::ptrdiff_t>(std::max(first, last)) + 1) -
        begin);
}

/// One place cut in two at a point, which both share.
std::vector<PeakPlace> halves(const PeakPlace &whole, std::size_t cut, std::size_t first_top,
                              std::size_t second_top) {
    PeakPlace first = whole;
    first.top = first_top;
    first.end = cut;
    first.shares_end = true;
    first.is_shoulder = first_top == cut || (whole.is_shoulder && first_top == whole.top);
    PeakPlace second = whole;
    second.top = second_top;
    second.start = cut;
    second.shares_start = true;
    second.is_shoulder = second_top == cut || (whole.is_shoulder && second_top == whole.top);
    return {first, second};
}

void replace(std::vector<PeakPlace> &places, std::size_t index, const std::vector<PeakPlace> &by) {
    const auto at = places.erase(places.begin() + static_cast<std::ptrdiff_t>(index));
    places.insert(at, by.begin(), by.end());
}

struct Top {
    std::size_t point = 0;
    bool is_maximum = false;
};

/// The maximum near `at`, or `at` itself.
Top top_near(const CorrectedTrace &trace, double at) {
    const double reach = 0.5 * trace.used.narrowest_half_width;
    const std::size_t first = point_at(trace.x, at - reach);
    const std::size_t last = point_at(trace.x, at + reach);
    const std::size_t top = highest(trace, first, last);
    const bool is_maximum = top != first && top != last;
    return {is_maximum ? top : point_at(trace.x, at), is_maximum};
}

/// A place of its own, from the baseline or a neighbour on one side to that on the other.
PeakPlace free_place(const CorrectedTrace &trace, const std::vector<PeakPlace> &places,
                     std::size_t top) {
    std::size_t first = 0;
    std::size_t last = trace.x.size() - 1;
    for (const PeakPlace &place : places) {
        first = place.end <= top ? std::max(first, place.end) : first;
        last = place.start >= top ? std::min(last, place.start) : last;
    }
    PeakPlace added{.top = top, .start = top, .end = top};
    while (added.start > first && trace.smoothed[added.start] > 0.0) {
        --added.start;
    }
    while (added.end < last && trace.smoothed[added.end] > 0.0) {
        ++added.end;
    }
    return added;
}

void tell_shared(std::vector<PeakPlace> &places, const CorrectedTrace &trace) {
    for (std::size_t i = 0; i + 1 < places.size(); ++i) {
        const bool shared =
            places[i].end == places[i + 1].start && trace.smoothed[places[i].end] > 0.0;
        places[i].shares_end = shared;
        places[i + 1].shares_start = shared;
    }
}

} // namespace

FoundPeaks add_peak(const FoundPeaks &found, std::span<const double> x, std::span<const double> y,
                    double at) {
    const CorrectedTrace trace = trace_of(found, x, y);
    if (!(at > x.front() && at < x.back())) {
        throw InputError({}, fmt::format("a peak to add at {}", exact_text(at)),
                         fmt::format("a place within the trace, from {} to {}",
                                     exact_text(x.front()), exact_text(x.back())));
    }
    std::vector<PeakPlace> places = places_of(found, x);
    const Top near = top_near(trace, at);
    const std::size_t top = near.point;
    const auto inside = std::find_if(places.begin(), places.end(), [&](const PeakPlace &place) {
        return top > place.start && top < place.end;
    });
    if (std::any_of(places.begin(), places.end(),
                    [&](const PeakPlace &place) { return place.top == top; })) {
        throw InputError(
            {}, fmt::format("a peak to add at {}", exact_text(at)),
            fmt::format("a place where no peak is yet; peaks are at: {}", peaks_there(found)));
    }
    if (inside != places.end()) {
        const std::size_t old = inside->top;
        // On a flank the lowest point is the shoulder itself: then the cut lies halfway.
        const std::size_t cut = near.is_maximum ? lowest_between(trace, old, top) : (old + top) / 2;
        auto parts = halves(*inside, cut, std::min(old, top), std::max(old, top));
        (old < top ? parts[1] : parts[0]).is_shoulder = !near.is_maximum;
        replace(places, static_cast<std::size_t>(inside - places.begin()), parts);
        return measured(found, trace, places);
    }
    PeakPlace added = free_place(trace, places, top);
    added.is_shoulder = !near.is_maximum;
    if (added.end - added.start < 2) {
        throw InputError({}, fmt::format("a peak to add at {}", exact_text(at)),
                         "a place where the signal lies above the baseline");
    }
    const auto after = std::find_if(places.begin(), places.end(),
                                    [&](const PeakPlace &place) { return place.top > top; });
    places.insert(after, added);
    tell_shared(places, trace);
    return measured(found, trace, places);
}

FoundPeaks drop_peak(const FoundPeaks &found, std::span<const double> x, std::span<const double> y,
                     double near) {
    const std::size_t index = peak_at(found, near, "a peak to drop");
    const CorrectedTrace trace = trace_of(found, x, y);
    std::vector<PeakPlace> places = places_of(found, x);
    if (index > 0) {
        places[index - 1].shares_end = false;
    }
    if (index + 1 < places.size()) {
        places[index + 1].shares_start = false;
    }
    replace(places, index, {});
    return measured(found, trace, places);
}

FoundPeaks split_peak(const FoundPeaks &found, std::span<const double> x, std::span<const double> y,
                      double at) {
    const std::size_t index = peak_at(found, at, "a peak to split");
    const CorrectedTrace trace = trace_of(found, x, y);
    std::vector<PeakPlace> places = places_of(found, x);
    const PeakPlace whole = places[index];
    const std::size_t cut = point_at(x, at);
    if (cut <= whole.start + 1 || cut + 1 >= whole.end) {
        throw misses(found, "a split too near to a border,", at);
    }
    replace(places, index,
            halves(whole, cut, highest(trace, whole.start, cut), highest(trace, cut, whole.end)));
    return measured(found, trace, places);
}

FoundPeaks move_border(const FoundPeaks &found, std::span<const double> x,
                       std::span<const double> y, double from, double to) {
    std::size_t index = found.peaks.size();
    bool is_start = false;
    double nearest = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < found.peaks.size(); ++i) {
        const FoundPeak &peak = found.peaks[i];
        for (const bool start : {true, false}) {
            const double distance = std::abs((start ? peak.start : peak.end) - from);
            if (distance < nearest && distance <= peak.half_width) {
                nearest = distance;
                index = i;
                is_start = start;
            }
        }
    }
    if (index == found.peaks.size()) {
        throw misses(found, "a border to move", from);
    }
    const CorrectedTrace trace = trace_of(found, x, y);
    std::vector<PeakPlace> places = places_of(found, x);
    if (is_start && places[index].shares_start) { // as the end of the peak before
        --index;
        is_start = false;
    }
    PeakPlace &place = places[index];
    const bool shared = !is_start && place.shares_end;
    const std::size_t low = is_start ? (index > 0 ? places[index - 1].end : 0) : place.top + 1;
    const std::size_t high = is_start                    ? place.top - 1
                             : shared                    ? places[index + 1].top - 1
                             : index + 1 < places.size() ? places[index + 1].start
                                                         : x.size() - 1;
    const std::size_t point = point_at(x, to);
    if (!(to >= x[low] && to <= x[high])) {
        throw InputError({}, fmt::format("a border to move to {}", exact_text(to)),
                         fmt::format("a place from {} to {}, between its peak and what is next",
                                     exact_text(x[low]), exact_text(x[high])));
    }
    (is_start ? place.start : place.end) = point;
    if (shared) {
        places[index + 1].start = point;
    }
    return measured(found, trace, places);
}

} // namespace cospot::signal
