#pragma once

#include "plate_photo/field.h"
#include "plate_photo/found_plate.h"

#include <vector>

namespace cospot::plate_photo {

/// A curve from edge to edge of the plate along which most strips respond.
struct LongCurve {
    PlateLine line;
    double share = 0.0; ///< of the strips that respond, 0 to 1
};

/// The curves in `response`, whose columns are strips across the plate and whose rows are as high
/// as its cells say; values of 1 and more mean that there is what is sought. Parabolas that slant
/// and bend by a few per cent of `width_mm` are tried at every height from `low_mm` to `high_mm`
/// (hough1962, from memory), refined by least squares through the places where each strip responds
/// most; those with at least `least_share` are returned, the clearest first.
[[nodiscard]] std::vector<LongCurve> long_curves(const Field &response, double width_mm,
                                                 double low_mm, double high_mm, double least_share);

} // namespace cospot::plate_photo
