#pragma once

#include "integration/photographed_plate.h"

#include <string>
#include <vector>

namespace cospot {

/// "white light", "254 nm", "366 nm"
[[nodiscard]] std::string words_for(plate_photo::Light light);

/// What is to be known of a spot, as stable words: "tailing", "overlapping", "at the edge",
/// "crooked front", "at the start", "at the front", "given".
[[nodiscard]] std::vector<std::string> flags_of(const PhotographedSpot &spot);

/// "2.1": lane and spot.
[[nodiscard]] std::string key_of(const PhotographedSpot &spot);

} // namespace cospot
