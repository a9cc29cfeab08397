#pragma once

#include "plate_photo/field.h"
#include "plate_photo/lanes.h"
#include "signal/found_peak.h"

#include <vector>

namespace cospot::plate_photo {

/// The signal along a lane, from below upwards, in the rows of the field.
struct LaneProfile {
    std::vector<double> y_mm;
    std::vector<double> signal;
};

/// The mean over `core_mm` in the middle of a lane, less what lies on both sides of it as well:
/// bands and shadows across the plate are in the gaps between lanes, spots are not. Rows from
/// `low_mm` to `high_mm`.
[[nodiscard]] LaneProfile lane_profile(const Field &signal, const LanePlace &lane, double core_mm,
                                       double low_mm, double high_mm);

/// Its peaks, found as those of a chromatogram are. The light has been evened out, so that the
/// baseline is nearly straight; narrower than a millimetre is no spot. A lane full of spots says
/// little of the noise, the plate says more: so peaks as high as `least` are taken, where the lane
/// alone would ask for more.
[[nodiscard]] signal::FoundPeaks lane_peaks(const LaneProfile &profile, double least);

} // namespace cospot::plate_photo
