#pragma once

#include "plate_photo/field.h"

#include <vector>

namespace cospot::plate_photo {

/// A place where the light changes most, as it is seen before lanes are known. In mm.
struct Blob {
    double x_mm = 0.0;
    double y_mm = 0.0;
    double height = 0.0;   ///< of the signal
    double width_mm = 0.0; ///< across the plate, at half of the height
};

/// The maxima of `signal` above `least` between two heights. What reaches an edge of the
/// plate at half of its height, or is wider than `most_width_mm`, is no spot but a finger, a clip,
/// a band.
[[nodiscard]] std::vector<Blob> blobs(const Field &signal, double least, double low_mm,
                                      double high_mm, double most_width_mm);

/// The median of their widths; 4 mm where there are none.
[[nodiscard]] double usual_width(const std::vector<Blob> &blobs);

/// A lane's middle and its borders, from the left edge.
struct LanePlace {
    double x_mm = 0.0;
    double left_mm = 0.0;
    double right_mm = 0.0;
};

/// Lanes are where blobs lie above one another. Those with clear blobs tell how far apart lanes
/// are; what lies much closer to another lane or to an edge is none. From left to right; none where
/// there are no blobs.
[[nodiscard]] std::vector<LanePlace> found_lanes(const std::vector<Blob> &blobs, double width_mm);

/// Lanes with these middles: borders half way to the neighbours, or, where there is none, as far
/// as on the other side. A lane alone reaches `alone_mm` to both sides.
[[nodiscard]] std::vector<LanePlace> lanes_at(std::vector<double> middles_mm, double width_mm,
                                              double alone_mm);

} // namespace cospot::plate_photo
