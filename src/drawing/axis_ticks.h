#pragma once

#include <string>
#include <vector>

namespace cospot {

/// A step of 1, 2 or 5 times a power of ten that divides the range into `about` parts or fewer.
[[nodiscard]] double round_step(double range, double about);

/// The multiples of `step` from `low` to `high`.
[[nodiscard]] std::vector<double> axis_ticks(double low, double high, double step);

/// A tick with as many decimals as the step has.
[[nodiscard]] std::string tick_text(double tick, double step);

/// A tick of another scale on an axis of time.
struct TimeTick {
    double retention_time_min = 0.0;
    double value = 0.0; ///< on that scale
};

} // namespace cospot
