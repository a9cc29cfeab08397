#pragma once

#include "plate_photo/channel.h"
#include "plate_photo/field.h"
#include "plate_photo/plate_lines.h"

#include <vector>

namespace cospot::plate_photo {

/// A signal as sharp as it was seen, to measure spots in, and without most of its noise, to decide
/// what is one.
struct ClearedSignal {
    Field sharp;
    Field calm;       ///< about 0 where nothing is
    Field calm_noise; ///< standard deviation of `calm`, in large squares
};

/// The signal of spots over a plate, and what is known of it.
struct SpotField {
    Field seen;                         ///< less bands across the plate and lines that were drawn
    Field broad;                        ///< what of `seen` the disc of a small spot fits into
    Field noise;                        ///< standard deviation of `seen`, in large squares
    ClearedSignal signal;               ///< `seen` without what is thin: strokes, specks, scratches
    std::vector<ClearedSignal> colours; ///< of the channels, less what `signal` has less
};

/// What lies at one height nearly everywhere is a band, and no spot: what the eluent left at its
/// front, a zone, the edge of a shadow. So much is taken from every cell of the row.
[[nodiscard]] SpotField spot_field(SpotSignal spots, const PlateLines &drawn);

/// Whether the disc of a small spot fits into what is highest near a place.
[[nodiscard]] bool is_broad(const SpotField &spots, double x_mm, double y_mm);

} // namespace cospot::plate_photo
