#pragma once

#include "photo_scores.h"
#include "rendered_plate.h"

#include "plate_photo/found_plate.h"

#include <nlohmann/json.hpp>

#include <optional>
#include <vector>

namespace cospot::rendering {

/// What the finder said about one photo through one set of corners.
struct Answer {
    bool refused = false;
    plate_photo::FoundPlate unaided; ///< nothing was given
    plate_photo::FoundPlate helped;  ///< with the start and the front, where they were not seen
};

/// What is kept of a plate: not its photo.
struct Outcome {
    RenderedPlate plate;
    CornerScore corners;
    Answer through_true;
    std::optional<Answer> through_found;
};

/// Numbers of all plates, of those under each light and of each difficulty.
[[nodiscard]] nlohmann::ordered_json all_figures(const std::vector<Outcome> &outcomes);

/// What the words mean that the numbers are called by.
[[nodiscard]] nlohmann::ordered_json definitions();

/// Share `at` (0 to 1) of the values is at most this; 0 of none.
[[nodiscard]] double quantile_of(std::vector<double> values, double at);

} // namespace cospot::rendering
