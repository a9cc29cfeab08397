#include "plate_photo/spot_uncertainty.h"

#include <algorithm>
#include <cmath>

namespace cospot::plate_photo {

namespace {

constexpr double kCornerMm = 0.1;   ///< what a corner is off
constexpr double kLens = 0.001;     ///< of the plate's height
constexpr double kTop = 0.12;       ///< of the densest part's length
constexpr double kTail = 0.04;      ///< of the difference of both sides
constexpr double kNeighbour = 0.08; ///< of the half width

} // namespace

double spot_uncertainty(const SpotShape &shape, bool overlapping, double noise, PlateSize plate) {
    const double tail = is_tailing(shape) ? std::abs(shape.below_mm - shape.above_mm) : 0.0;
    const double steepness = shape.height / std::max(shape.half_width, 1e-3);
    const double parts[] = {kCornerMm,
                            kLens * plate.height_mm,
                            kTop * shape.top_length,
                            kTail * tail,
                            overlapping ? kNeighbour * shape.half_width : 0.0,
                            std::min(noise / steepness, 0.5 * shape.half_width)};
    double square = 0.0;
    for (const double part : parts) {
        square += part * part;
    }
    return std::sqrt(square);
}

} // namespace cospot::plate_photo
