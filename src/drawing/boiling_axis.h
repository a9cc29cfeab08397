#pragma once

#include "drawing/axis_ticks.h"
#include "quantities/boiling_scale.h"

#include <vector>

namespace cospot {

/// Ticks at round boiling points (degrees C) over the times `from_min` to `to_min` of a
/// chromatogram, never beyond the ladder; about `most` of them. Empty where no time is left.
[[nodiscard]] std::vector<TimeTick> boiling_ticks(const quantities::BoilingScale &scale,
                                                  double from_min, double to_min, double most);

} // namespace cospot
