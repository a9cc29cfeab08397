#include "fractions/trace.h"

#include "quantities/domain.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <utility>

namespace cospot::fractions {

namespace {

/// A maximum of the signal, and the lowest place before it that parts it from the maximum before.
struct Peak {
    std::size_t top = 0;
    std::size_t valley = 0; ///< of no meaning for the first peak of a hump
};

std::vector<double> heights_of(const std::vector<Fraction> &fractions, double threshold) {
    std::vector<double> heights;
    heights.reserve(fractions.size());
    for (const Fraction &fraction : fractions) {
        heights.push_back(std::max(0.0, fraction.signal.value() - threshold));
    }
    return heights;
}

std::size_t lowest(const std::vector<double> &heights, std::size_t first, std::size_t last) {
    const auto begin = heights.begin();
    return static_cast<std::size_t>(
        std::min_element(begin + static_cast<std::ptrdiff_t>(first),
                         begin + static_cast<std::ptrdiff_t>(last) + 1) -
        begin);
}

/// All local maxima of the hump [first, last]; of a level top the first place.
std::vector<Peak> maxima(const std::vector<double> &heights, std::size_t first, std::size_t last) {
    std::vector<Peak> peaks;
    bool rises = true;
    for (std::size_t i = first; i <= last; ++i) {
        const double next = i == last ? 0.0 : heights[i + 1];
        if (next < heights[i] && rises) {
            std::size_t top = i;
            while (top > first && heights[top - 1] == heights[i]) {
                --top;
            }
            peaks.push_back({top, peaks.empty() ? first : lowest(heights, peaks.back().top, top)});
            rises = false;
        } else if (next > heights[i]) {
            rises = true;
        }
    }
    return peaks;
}

/// Joins peaks that no deep valley parts, the shallowest first, and notes those that stood out.
void join_shallow(std::vector<Peak> &peaks, const std::vector<double> &heights,
                  std::vector<std::size_t> &shoulders) {
    const auto depth = [&](std::size_t i) { // share of the smaller peak that the valley reaches
        const double smaller = std::min(heights[peaks[i - 1].top], heights[peaks[i].top]);
        return heights[peaks[i].valley] / smaller;
    };
    while (peaks.size() > 1) {
        std::size_t shallowest = 1;
        for (std::size_t i = 2; i < peaks.size(); ++i) {
            shallowest = depth(i) > depth(shallowest) ? i : shallowest;
        }
        const double reached = depth(shallowest);
        if (reached < kValleyShare) {
            return;
        }
        Peak &before = peaks[shallowest - 1];
        const Peak &joined = peaks[shallowest];
        const bool keeps_first = heights[before.top] >= heights[joined.top];
        if (reached < 1.0 - kShoulderShare) {
            shoulders.push_back(keeps_first ? joined.top : before.top);
        }
        before.top = keeps_first ? before.top : joined.top;
        peaks.erase(peaks.begin() + static_cast<std::ptrdiff_t>(shallowest));
    }
}

/// Fractions between the top and half its height, interpolated; `step` is 1 or -1. Beyond the ends
/// of the trace the signal is taken as nothing.
double half_width(const std::vector<double> &heights, std::size_t top, std::ptrdiff_t step) {
    const double half = heights[top] / 2;
    double before = heights[top];
    double distance = 0.0;
    for (auto i = static_cast<std::ptrdiff_t>(top) + step;; i += step) {
        const bool is_inside = i >= 0 && i < std::ssize(heights);
        const double here = is_inside ? heights[static_cast<std::size_t>(i)] : 0.0;
        if (here < half) {
            return distance + (before - half) / (before - here);
        }
        before = here;
        distance += 1.0;
    }
}

/// Fractions from the top to where a Gaussian band of that half width is down to `kThresholdShare`.
std::size_t reach(const std::vector<double> &heights, std::size_t top, std::ptrdiff_t step) {
    const double in_half_widths = std::sqrt(std::log(1.0 / kThresholdShare) / std::numbers::ln2);
    return static_cast<std::size_t>(in_half_widths * half_width(heights, top, step));
}

/// Adds the components of the hump [first, last].
void add_components(const std::vector<Peak> &peaks, const std::vector<double> &heights,
                    std::size_t first, std::size_t last, std::vector<Component> &components) {
    for (std::size_t p = 0; p < peaks.size(); ++p) {
        const std::size_t top = peaks[p].top;
        std::size_t from = first;
        std::size_t to = last;
        if (p > 0) {
            const std::size_t back = std::min(reach(heights, top, -1), top - first);
            from = std::min(peaks[p].valley, top - back);
        }
        if (p + 1 < peaks.size()) {
            const std::size_t ahead = std::min(reach(heights, top, 1), last - top);
            to = std::max(peaks[p + 1].valley, top + ahead);
        }
        Component &component = components.emplace_back();
        for (std::size_t i = from; i <= to; ++i) {
            component.spots.push_back({i, std::nullopt, heights[i]});
        }
    }
}

} // namespace

std::vector<Fraction> fractions_of_trace(const std::vector<TracePoint> &points,
                                         double fraction_ml) {
    quantities::require(fraction_ml > 0.0, "a fraction size", fraction_ml,
                        "a fraction size above 0 mL");
    std::map<int, std::pair<double, double>> sums; // of signals, and how many
    for (const TracePoint &point : points) {
        const double ends = std::ceil(point.volume_ml / fraction_ml - 1e-9);
        auto &[sum, count] = sums[std::max(1, static_cast<int>(ends))];
        sum += point.signal;
        count += 1.0;
    }
    std::vector<Fraction> fractions;
    for (const auto &[number, signals] : sums) {
        Fraction &fraction = fractions.emplace_back();
        fraction.number = number;
        fraction.signal = signals.first / signals.second;
        fraction.volume_ml = fraction_ml;
    }
    return fractions;
}

TraceBands find_bands(std::vector<Fraction> fractions, double threshold) {
    const std::vector<double> heights = heights_of(fractions, threshold);
    TraceBands bands;
    std::vector<Component> components;
    std::vector<std::size_t> shoulders;
    for (std::size_t first = 0; first < heights.size(); ++first) {
        if (heights[first] <= 0.0) {
            continue;
        }
        std::size_t last = first;
        while (last + 1 < heights.size() && heights[last + 1] > 0.0) {
            ++last;
        }
        std::vector<Peak> peaks = maxima(heights, first, last);
        join_shallow(peaks, heights, shoulders);
        add_components(peaks, heights, first, last, components);
        first = last;
    }
    name_in_order(components, fractions);
    std::sort(shoulders.begin(), shoulders.end());
    for (const std::size_t shoulder : shoulders) {
        bands.shoulders.push_back(fractions[shoulder].number);
    }
    bands.run = {std::move(fractions), std::move(components), true};
    return bands;
}

} // namespace cospot::fractions
