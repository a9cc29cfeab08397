#pragma once

#include "images/image.h"
#include "plate_photo/plate_geometry.h"

#include <vector>

namespace cospot::plate_photo {

/// An edge on its way from one corner to the next: nearly straight, bowed by the lens.
struct EdgeCurve {
    Place from, to;
    double bow_px = 0.0; ///< of the middle to the left of the way, as seen from above the photo
};

/// How far and how finely changes of light are looked for beside a curve.
struct EdgeSearch {
    double reach_px = 0.0;    ///< to both sides
    double step_px = 1.0;     ///< changes are those over about three steps
    double most_bow_px = 0.0; ///< more, or less, than that of the curve
};

struct EdgePoints {
    EdgeCurve curve;           ///< along which most of the edge is seen
    std::vector<Place> places; ///< the edge, seen on the way; to fractions of a step
    double visible = 0.0;      ///< share of the way on which it is seen
};

/// The curve along which the changes of colour across it are strongest of all places beside the
/// way, and the places of the changes close to it, in the pixels of the photo at full size.
[[nodiscard]] EdgePoints edge_points(const images::Image &photo, const EdgeCurve &near,
                                     const EdgeSearch &search);

} // namespace cospot::plate_photo
