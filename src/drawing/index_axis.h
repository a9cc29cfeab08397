#pragma once

#include "drawing/axis_ticks.h"

#include <vector>

namespace cospot {

/// The retention time and the retention index of one peak.
struct IndexedPeak {
    double retention_time_min = 0.0;
    double index = 0.0;
};

/// Ticks at round indices for a second axis over the times of a chromatogram: the time of an index
/// is interpolated between the peaks' own pairs, monotonically (F. N. Fritsch and R. E. Carlson,
/// SIAM J. Numer. Anal. 1980, 17, 238; pchip of Boost.Math), never beyond them. At most `most`
/// ticks, in steps of 100 or more. Empty for fewer than four peaks with different times, or where
/// the index does not rise with the time.
[[nodiscard]] std::vector<TimeTick> index_ticks(std::vector<IndexedPeak> peaks, std::size_t most);

} // namespace cospot
