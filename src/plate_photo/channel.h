#pragma once

#include "plate_photo/field.h"
#include "plate_photo/found_plate.h"
#include "plate_photo/layer_light.h"

#include <vector>

namespace cospot::plate_photo {

/// How the plate was lit, as its layer looks: green where an indicator glows, dark where only
/// spots glow, else white light.
[[nodiscard]] Light tell_light(const LayerLight &layer);

/// How far the light of a cell is off the layer's, as the natural logarithm of their ratio: about 0
/// where nothing is, above 0 in spots; lightly smoothed. At 254 nm what is missing of the green
/// light (hess2007, from memory), which is in proportion to the amount; at 366 nm the largest rise
/// of a channel; in white light the largest change of a channel, darker or brighter, since spots
/// and stains have any colour. Channels that are far noisier than others count less.
struct SpotSignal {
    Field signal;
    /// The change of each channel alone, towards what spots do; none where one channel is looked
    /// at. Spots of different colours that overlap are apart in these.
    std::vector<Field> colours;
    Field noise; ///< standard deviation of a cell's signal, in squares of 20 mm
};
[[nodiscard]] SpotSignal spot_signal(const LayerLight &layer, Light light);

} // namespace cospot::plate_photo
