#pragma once

#include "resolve/resolution_curve.h"

#include <cstddef>
#include <vector>

namespace cospot::resolve {

/// A window of the diagram of R. J. Laub and J. H. Purnell, J. Chromatogr. 1975, 112, 71 (from
/// memory): a stretch of compositions between two minima of the resolution of the worst pair.
/// Theirs shows relative retention, this one resolution. Positions in the curve, all included.
struct Window {
    std::size_t first = 0;
    std::size_t last = 0;
    std::size_t top =
        0; ///< where the worst pair is resolved best, if possible with every k in limits
};

/// The windows of a curve, in the order of the fractions; they share the points between them. Empty
/// for an empty curve.
[[nodiscard]] std::vector<Window> windows_of(const std::vector<CurvePoint> &curve);

} // namespace cospot::resolve
