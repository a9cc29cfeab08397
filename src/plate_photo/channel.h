#pragma once

#include "plate_photo/field.h"
#include "plate_photo/found_plate.h"
#include "plate_photo/layer_light.h"

#include <array>

namespace cospot::plate_photo {

/// How the plate was lit, as its layer looks: green where an indicator glows, dark where only
/// spots glow, else white light.
[[nodiscard]] Light tell_light(const LayerLight &layer);

/// How red, green and blue light change in a spot: a unit vector.
using Direction = std::array<double, 3>;

/// How far the light of a cell is off the layer's, 0 or more, and about 0 where nothing is; lightly
/// smoothed. At 254 nm what is missing of the green light (hess2007, from memory); at 366 nm what
/// there is more than of the layer's light, of all channels; in white light the largest
/// change of a channel, darker or brighter, since spots and stains have any colour.
[[nodiscard]] Field spot_signal(const LayerLight &layer, Light light);

/// The mean change of the light around a place, within `radius_mm`, as a direction. Red, green and
/// blue alike where nothing changes.
[[nodiscard]] Direction direction_of_change(const LayerLight &layer, double x_mm, double y_mm,
                                            double radius_mm);

} // namespace cospot::plate_photo
