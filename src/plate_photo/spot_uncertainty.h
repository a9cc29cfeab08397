#pragma once

#include "plate_photo/plate_geometry.h"
#include "plate_photo/spot_shape.h"

namespace cospot::plate_photo {

/// Standard uncertainty of a spot's y_mm: the root of the sum of the squares (jcgm100) of
/// - the geometry: corners of the plate and the camera's lens;
/// - where the densest part of so long a top is;
/// - a tail, towards which the top is drawn;
/// - a neighbour, on whose flank it may lie;
/// - noise, which moves the top by the noise over the steepness of its sides.
/// `noise` is the deviation of the signal in which the spot was found.
[[nodiscard]] double spot_uncertainty(const SpotShape &shape, bool overlapping, double noise,
                                      PlateSize plate);

/// Of a place that the user reads off with a ruler.
inline constexpr double kGivenUncertaintyMm = 0.3;

} // namespace cospot::plate_photo
