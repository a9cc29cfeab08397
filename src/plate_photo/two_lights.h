#pragma once

#include "plate_photo/found_plate.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace cospot::plate_photo {

/// A spot in two photos of one plate, by its number in its lane from 0; at least one of them is
/// there.
struct SpotInTwoLights {
    std::size_t lane = 0; ///< from 0
    std::optional<std::size_t> first;
    std::optional<std::size_t> second;
};

/// The lanes of a plate of which two photos show different ones: middles in mm from the left edge,
/// in ascending order. Lanes nearer to each other than half of the least distance between the lanes
/// of one photo (kSameLane_mm where it shows one) are the same.
[[nodiscard]] std::vector<double> lanes_of_both(const FoundPlate &first, const FoundPlate &second);
inline constexpr double kSameLane_mm = 4.0;

/// Lays two photos with the same lanes over each other. Spots are the same where their middles lie
/// within the extent of each other; of several the nearest ones are. Throws std::logic_error for
/// another number of lanes.
[[nodiscard]] std::vector<SpotInTwoLights> laid_over(const FoundPlate &first,
                                                     const FoundPlate &second);

} // namespace cospot::plate_photo
