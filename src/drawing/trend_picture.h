#pragma once

#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// One sample of a trend.
struct TrendPoint {
    std::string sample;
    std::optional<double> per_cent; ///< none: not seen
    bool breaks_limit = false;
};

/// One thing over several samples, in per cent.
struct DrawnTrend {
    std::string title;
    std::string words; ///< the same for those who do not see it
    std::vector<TrendPoint> points{};
    std::optional<double> limit{};
};

/// A small chart, one line a sample from top to bottom with its name, and the limit as a broken
/// line; a gap where nothing was seen. The axis starts at 0 where the values lie far from 100, and
/// else shows their range.
[[nodiscard]] std::string trend_picture(const DrawnTrend &trend);

} // namespace cospot
