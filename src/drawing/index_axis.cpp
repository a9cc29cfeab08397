#include "drawing/index_axis.h"

#include <math.h> // Boost 1.74 calls isnan without std::

#include <boost/math/interpolators/pchip.hpp>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

constexpr std::size_t kFewestPeaks = 4;

/// Smallest step of the list that makes no more than `most` ticks.
double step_for(double first, double last, std::size_t most) {
    for (const double step : {100.0, 200.0, 500.0, 1000.0, 2000.0}) {
        if ((last - first) / step <= static_cast<double>(most)) {
            return step;
        }
    }
    return last - first;
}

} // namespace

std::vector<TimeTick> index_ticks(std::vector<IndexedPeak> peaks, std::size_t most) {
    std::sort(peaks.begin(), peaks.end(), [](const IndexedPeak &a, const IndexedPeak &b) {
        return a.retention_time_min < b.retention_time_min;
    });
    std::vector<double> times_min;
    std::vector<double> indices;
    for (const IndexedPeak &peak : peaks) {
        if (!times_min.empty() && peak.retention_time_min <= times_min.back()) {
            continue; // the same time twice
        }
        if (!indices.empty() && peak.index <= indices.back()) {
            return {};
        }
        times_min.push_back(peak.retention_time_min);
        indices.push_back(peak.index);
    }
    if (indices.size() < kFewestPeaks) {
        return {};
    }
    const double first = indices.front();
    const double last = indices.back();
    const double step = step_for(first, last, most);
    const boost::math::interpolators::pchip<std::vector<double>> time_of(std::move(indices),
                                                                         std::move(times_min));
    std::vector<TimeTick> ticks;
    for (double index = std::ceil(first / step) * step; index <= last; index += step) {
        ticks.push_back({time_of(index), index});
    }
    return ticks;
}

} // namespace cospot
