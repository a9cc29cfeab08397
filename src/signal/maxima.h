#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace cospot::signal {

/// A maximum between the lowest points that part it from its neighbours (or from the ends).
struct Maximum {
    std::size_t top = 0;
    std::size_t valley_before = 0;
    std::size_t valley_after = 0;
};

/// How far a maximum must stand above the valleys on both sides.
struct LeastProminence {
    double absolute = 0.0;
    double share_of_height = 0.0; ///< below 1; the larger of both counts
};

/// The maxima that stand out, in one pass over the values. A maximum at an end, whose one side is
/// not seen, is none.
[[nodiscard]] std::vector<Maximum> prominent_maxima(std::span<const double> values,
                                                    const LeastProminence &least);

/// Where `values`, going from `from` by `step` (1 or -1) as far as `last`, first falls to `level`:
/// a place on the axis, between two points. The last place where it stays above; `found` says so.
struct Fall {
    double x = 0.0;
    bool found = false;
};
[[nodiscard]] Fall fall_to(std::span<const double> x, std::span<const double> values, double level,
                           std::size_t from, std::size_t last);

} // namespace cospot::signal
