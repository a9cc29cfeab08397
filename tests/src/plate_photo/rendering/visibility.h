#pragma once

#include "chromatogram.h"
#include "colour.h"
#include "sensor.h"

namespace cospot::rendering {

/// How far a spot stands out of the noise of the sensor, at best: the ratio of signal to noise of a
/// matched filter over all its pixels, each of which sees one colour. `layer`: light of the clean
/// layer there, as it falls on the sensor (before `exposure.gain`); `brightest`: of its brightest
/// channel.
[[nodiscard]] double visibility(const TrueSpot &spot, Colour layer, double brightest,
                                double pixels_per_mm, const Exposure &exposure);

} // namespace cospot::rendering
