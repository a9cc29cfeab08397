#pragma once

#include "plate_photo/found_plate.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace cospot::plate_photo {

/// A spot as two photos of one plate show it, in different light or before and after a stain.
struct SpotInTwoLights {
    std::size_t lane = 0;              ///< from 0, in TwoLights::lanes
    std::optional<FoundSpot> in_first; ///< none: the first photo does not show it
    std::optional<FoundSpot> in_second;
};

/// A lane of the plate: its place in the lists of both photos.
struct LaneInTwoLights {
    double x_mm = 0.0;
    std::optional<std::size_t> in_first;
    std::optional<std::size_t> in_second;
};

struct TwoLights {
    std::vector<LaneInTwoLights> lanes; ///< from left to right
    std::vector<SpotInTwoLights> spots; ///< by lane, then from the start upwards
};

/// Lays the spots of two photos of one plate over each other. Lanes are the same where their
/// middles lie nearer than half of the way to the next; spots, where they lie nearer than three
/// times their combined uncertainty, or half a millimetre. Each belongs to one pair at most, the
/// nearest first. Both plates must have been straightened with the same size.
[[nodiscard]] TwoLights laid_over(const FoundPlate &first, const FoundPlate &second);

} // namespace cospot::plate_photo
