#pragma once

#include <string>

namespace cospot {

/// An interval of expected values.
struct DrawnRange {
    double low = 0.0;
    double expected = 0.0;
    double high = 0.0;
};

/// Ends of an axis, and the step of its digits.
struct RangeAxis {
    double low = 0.0;
    double high = 1.0;
    double step = 0.1;
};

/// An axis with round ends that leaves some room on both sides of low..high.
[[nodiscard]] RangeAxis range_axis(double low, double high);

/// The interval on its axis, with a tick at the expected value, small enough to stand in a cell of
/// a table. `words` says the same for those who do not see it.
[[nodiscard]] std::string range_picture(const DrawnRange &range, const RangeAxis &axis,
                                        const std::string &words);

} // namespace cospot
