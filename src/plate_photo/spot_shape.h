#pragma once

#include "plate_photo/field.h"
#include "plate_photo/lanes.h"
#include "signal/found_peak.h"

#include <optional>

namespace cospot::plate_photo {

/// A spot as it lies on the plate. In mm from its left and lower edges.
struct SpotShape {
    double x_mm = 0.0;
    double y_mm = 0.0;       ///< the middle of its densest part
    double half_width = 0.0; ///< along the lane, at half of the height
    double low_mm = 0.0;     ///< where it falls to a tenth, or to the valley to a neighbour
    double high_mm = 0.0;
    double below_mm = 0.0; ///< from the densest part to a tenth of the height, towards the start
    double above_mm = 0.0;
    double width_mm = 0.0;   ///< across, at half of the height
    double height = 0.0;     ///< of the signal
    double contrast = 0.0;   ///< change of light, 0 to 1
    double area = 0.0;       ///< of the change of light
    double top_length = 0.0; ///< along the lane, of the densest part
};

/// The shape of what lies in `lane` between `low_mm` and `high_mm`, highest near `y_mm`. None where
/// it does not look like a spot: highest at an edge of the plate or at the lane's border, or far
/// wider than it is long.
[[nodiscard]] std::optional<SpotShape> spot_shape(const Field &signal, const LanePlace &lane,
                                                  double y_mm, double low_mm, double high_mm);

/// Whether one side of the spot is clearly longer than the other.
[[nodiscard]] bool is_tailing(const SpotShape &shape);

} // namespace cospot::plate_photo
