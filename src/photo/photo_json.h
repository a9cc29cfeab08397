#pragma once

#include "document/json.h"
#include "integration/photographed_plate.h"

#include <vector>

namespace cospot {

/// One object a spot, and a last one of the plate.
[[nodiscard]] std::vector<Json> photo_json(const PhotographedPlate &plate,
                                           const PhotoSettings &settings);

} // namespace cospot
