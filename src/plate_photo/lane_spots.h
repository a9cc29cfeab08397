#pragma once

#include "plate_photo/lanes.h"
#include "plate_photo/spot_field.h"
#include "plate_photo/spot_shape.h"

#include <vector>

namespace cospot::plate_photo {

/// A spot as it is seen in its lane.
struct LaneSpot {
    SpotShape shape;
    bool overlapping = false; ///< with a neighbour in the lane
};

/// Least height of a spot: what is lower, JPEG and uneven layers make as well.
inline constexpr double kLeastSignal = 0.028;
/// Of the top of a usual spot, that is left when it is averaged with what is around.
inline constexpr double kCalmShare = 0.7;

/// The spots between two heights, from below upwards. They are peaks of the lane's profile, and of
/// those of the colour channels: two spots of different colours that overlap may have one maximum
/// in common, and one each in their own light. Peaks nearer than half of a half width are one.
[[nodiscard]] std::vector<LaneSpot> lane_spots(const SpotField &spots, const LanePlace &lane,
                                               double core_mm, double low_mm, double high_mm);

} // namespace cospot::plate_photo
